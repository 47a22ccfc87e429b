using System.Runtime.CompilerServices;

// Who may name the numbers of an exact point: the storage that keeps them, and the tests of the rules. The server is
// not among them and must not become so; see the decision on exact points.
[assembly: InternalsVisibleTo("Accession.Storage")]
[assembly: InternalsVisibleTo("Accession.Core.Tests")]
