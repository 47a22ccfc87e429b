Console.WriteLine("");
