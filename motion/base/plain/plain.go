// Package plain takes out of a text what has no shape of its own but does
// something to what is around it: to a terminal, to the lines of a table, to the
// order in which a reader sees the letters.
package plain

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text returns s with every character that is not one to look at replaced: by a
// space where it is a control or parts lines or paragraphs, else by the
// replacement character. These are the general categories Cc, Cf, Zl and Zp of
// the Unicode Standard, so the C0 and C1 controls and DEL; the marks, embeddings,
// overrides and isolates that UAX #9 (Unicode Bidirectional Algorithm, section 2)
// orders text with; joiners, the byte order mark and whatever else has no width;
// and with them bytes that are no UTF-8, surrogates, what is for private use and
// what stands for no character at all.
//
// They are replaced and not dropped: what they part would run together, which
// UTR #36 (Unicode Security Considerations, section 3.5, on the deletion of code
// points) warns of.
func Text(s string) string {
	if Is(s) {
		return s
	}
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsGraphic(r):
			return r
		case unicode.In(r, unicode.Cc, unicode.Zl, unicode.Zp):
			return ' '
		}
		return utf8.RuneError
	}, s)
}

// Is tells whether Text leaves s as it is.
func Is(s string) bool {
	return utf8.ValidString(s) && strings.IndexFunc(s, func(r rune) bool { return !unicode.IsGraphic(r) }) < 0
}

// Line is Text on one line without white space to spare.
func Line(s string) string { return strings.Join(strings.Fields(Text(s)), " ") }

// JSON returns a document of JSON with the characters that Text replaces as
// escapes, so that it says the same and can be printed. Between values there are
// none but line feeds, which stay.
func JSON(document []byte) []byte {
	if Is(strings.ReplaceAll(string(document), "\n", "")) {
		return document
	}
	out := make([]byte, 0, len(document))
	for _, r := range string(document) {
		if r == '\n' || unicode.IsGraphic(r) {
			out = utf8.AppendRune(out, r)
			continue
		}
		out = escaped(out, r)
	}
	return out
}
