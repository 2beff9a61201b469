package report

import (
	"slices"
	"strings"
	"unicode"
)

// Word is a title as it is typed to ask for its section: in lower case, with hyphens
// for what is neither a letter nor a digit.
func Word(title string) string {
	apart := func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }
	return strings.Join(strings.FieldsFunc(strings.ToLower(title), apart), "-")
}

// Names are the words by which the sections are asked for that hold anything, in their
// order, each once.
func (r Report) Names() []string { return r.words(func(s Section) string { return s.Name }) }

// Groups are the words for all sections of a kind.
func (r Report) Groups() []string { return r.words(func(s Section) string { return s.Group }) }

func (r Report) words(of func(Section) string) []string {
	var out []string
	for _, s := range r.Sections {
		if w := of(s); w != "" && len(s.Blocks) > 0 && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	return out
}

// Only is the report with nothing but its headline and the sections that are asked for.
func (r Report) Only(words ...string) Report {
	r.Sections = slices.DeleteFunc(slices.Clone(r.Sections), func(s Section) bool {
		return s.Name != "" && !slices.Contains(words, s.Name) && !slices.Contains(words, s.Group)
	})
	return r
}
