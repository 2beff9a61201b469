package guide

// kind is what a part of a chapter is.
type kind string

const (
	heading   kind = "heading"
	paragraph kind = "paragraph"
	typed     kind = "typed"  // commands
	fenced    kind = "fenced" // what is seen, or a part of a file
	list      kind = "list"
	item      kind = "item"
	quote     kind = "quote" // what to mind
	table     kind = "table" // its first row is the head
)

// part is a block of a chapter.
type part struct {
	Kind  kind       `json:"kind"`
	Level int        `json:"level,omitempty"` // of a heading
	First int        `json:"first,omitempty"` // number of a list; 0 for one without
	Text  []span     `json:"text,omitempty"`
	Lines []string   `json:"lines,omitempty"` // of code
	Parts []part     `json:"parts,omitempty"`
	Rows  [][][]span `json:"rows,omitempty"`
}

// style is how a text stands out.
type style string

const (
	plain  style = ""
	strong style = "strong"
	code   style = "code"
)

// span is a piece of text of one style.
type span struct {
	Text string `json:"text"`
	As   style  `json:"as,omitempty"`
	To   string `json:"to,omitempty"` // the chapter that it leads to
}
