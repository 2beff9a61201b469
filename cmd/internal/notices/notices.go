// Package notices holds the licences of what the program carries besides its own:
// the modules that are linked into it, the typeface among them, and the library of
// the language. Its test makes the text, and fails where that is another.
package notices

import _ "embed"

// Text is all of them, in full.
//
//go:embed notices.txt
var Text string
