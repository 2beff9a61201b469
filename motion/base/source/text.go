package source

import (
	"cmp"
	"fmt"
	"strconv"
	"unicode/utf8"
)

// Place is where something was written.
type Place struct {
	Line   int    // 1-based; 0 when it was not in a file
	Column int    // 1-based, in characters; 0 when it was not in a file
	Origin string // the flag that gave it, such as "--from"; "" for the file
	File   string // of another document, which was laid under this one; "" for this one

	// reported is set where what stands there is of no use and a fault says so
	// already: a second one about the same thing would only confuse.
	reported bool
}

// String is where that is, as a fault says it: "table.toml:12:3".
func (p Place) String() string {
	return fmt.Sprintf("%s:%d:%d", cmp.Or(p.Origin, p.File), p.Line, p.Column)
}

// Text is one value as its author wrote it, quotes and digit underscores
// removed, and where. Numbers in a file become text too: what they mean is for
// the reader to decide. What is not to be looked at has been made plain, so that
// nothing that is made of it need.
type Text struct {
	Text   string
	Line   int
	Column int
	Origin string
	File   string // as in Place
	Set    bool   // false when the file does not have the key

	written  string // as it stands in the file, where that is not plain
	reported bool
}

// Written is the text as it stands in the file, for the name of another file,
// which has to be that very one.
func (t Text) Written() string {
	if t.written != "" {
		return t.written
	}
	return t.Text
}

// Place returns where the text was written.
func (t Text) Place() Place { return Place{t.Line, t.Column, t.Origin, t.File, t.reported} }

// Quoted returns the text in quotes, shortened if it is long.
func (t Text) Quoted() string { return quote(t.Written()) }

// longestQuote keeps a fault to a line or so, whatever the file holds.
const longestQuote = 60

func quote(s string) string {
	if utf8.RuneCountInString(s) <= longestQuote {
		return strconv.Quote(s)
	}
	return strconv.Quote(string([]rune(s)[:longestQuote])) + "..."
}

// Switch is a true or a false and where it was written.
type Switch struct {
	On     bool
	Line   int
	Column int
	Origin string
	File   string // as in Place
	Set    bool
}

// Place returns where the switch was written.
func (s Switch) Place() Place {
	return Place{Line: s.Line, Column: s.Column, Origin: s.Origin, File: s.File}
}

// Texts is a value that may be one text or a list of texts.
type Texts struct {
	Items  []Text
	Single bool // written without brackets
	Line   int
	Column int
	Origin string
	File   string // as in Place
	Set    bool

	reported bool
}

// Place returns where the value was written.
func (t Texts) Place() Place { return Place{t.Line, t.Column, t.Origin, t.File, t.reported} }

// Override is a value that takes the place of one in the file, such as a
// command-line flag gives, or takes a table out of it.
type Override struct {
	Path   string // "axis.rail.from"
	Text   string // "60 mm"
	Origin string // "--from"
	Gone   bool   // the file is read as if it had nothing at Path
}
