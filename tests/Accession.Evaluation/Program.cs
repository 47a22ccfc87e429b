using System.Text;
using Accession.Evaluation;

Console.OutputEncoding = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false);
return Evaluation.Run(args, Console.Out, Console.Error);
