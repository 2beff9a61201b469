package style

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/image/font/sfnt"
)

// latest is the last letter of Latin Extended-A (The Unicode Standard, chapter
// 7.1): the typeface has all of the letters up to it.
const latest = 0x17f

// Lacks returns the characters of some texts that the typeface does not have, each
// once. Those beyond the basic plane (The Unicode Standard, section 2.8) a PDF
// cannot be set in, whatever the typeface has.
func Lacks(texts ...string) []rune {
	var out []rune
	var buf sfnt.Buffer
	for _, text := range texts {
		for _, r := range text {
			if lacks(&buf, r) && !slices.Contains(out, r) {
				out = append(out, r)
			}
		}
	}
	return out
}

func lacks(buf *sfnt.Buffer, r rune) bool {
	if r <= latest || strings.TrimSpace(string(r)) == "" {
		return false
	}
	glyph, err := regular().GlyphIndex(buf, r)
	return err != nil || glyph == 0 || r > 0xffff
}

// Written is text as the typeface can set it: where it lacks characters their
// codes stand, those beside each other in one pair of brackets.
func Written(text string) string {
	if strings.IndexFunc(text, func(r rune) bool { return r > latest }) < 0 {
		return text
	}
	var out strings.Builder
	var buf sfnt.Buffer
	open := false
	for _, r := range text {
		absent := lacks(&buf, r)
		switch {
		case absent && open:
			out.WriteByte(' ')
		case absent:
			out.WriteByte('[')
		case open:
			out.WriteByte(']')
		}
		if open = absent; absent {
			fmt.Fprintf(&out, "%U", r)
		} else {
			out.WriteRune(r)
		}
	}
	if open {
		out.WriteByte(']')
	}
	return out.String()
}

// maxNamed is how many characters are named before they are counted.
const maxNamed = 8

// Codes names characters by their codes.
func Codes(absent []rune) string {
	names := make([]string, 0, maxNamed)
	for i, r := range absent {
		if i == maxNamed {
			return strings.Join(names, ", ") + fmt.Sprintf(" and %d more", len(absent)-i)
		}
		names = append(names, fmt.Sprintf("%U", r))
	}
	return strings.Join(names, ", ")
}

// wide tells whether a text is of letters that one byte each can hold.
func wide(text string) bool {
	for _, r := range text {
		if r == utf8.RuneError || r > 255 || r >= 128 && r < 160 {
			return true
		}
	}
	return false
}
