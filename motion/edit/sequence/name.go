package sequence

import "strings"

// maxName bounds the name of a file; no common file system takes a longer path.
const maxName = 1000

// inside tells whether a file's name stays within the folder it is looked up
// in, on any system: no way up, no root, no drive, no stream, nothing that is
// not text.
func inside(name string) bool {
	if name == "" || len(name) > maxName || strings.ContainsAny(name, "\\:\x00") {
		return false
	}
	for part := range strings.SplitSeq(name, "/") {
		if part == "" || part == "." || part == ".." {
			return false
		}
	}
	return true
}
