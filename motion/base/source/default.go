package source

// Default is one value that the file left out and the program filled in.
type Default struct {
	Key   string // "axis.rail.law"
	Value string // "3-4-5"
	Why   string // "starts and ends at rest, with little jerk"
}
