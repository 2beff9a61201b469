package source

import (
	"sort"
	"unicode/utf8"
)

// places knows the line and column of every byte of a document.
type places struct {
	data  []byte
	lines []int // offset of the start of each line
	runes []int // characters before every block of places
}

// block is how many bytes are looked at to tell a column: a document of one long line,
// counted from its start for every value, takes the square of its length.
const block = 256

func newPlaces(data []byte) places {
	p := places{data: data, lines: []int{0}}
	n := 0
	for i, c := range data {
		if i%block == 0 {
			p.runes = append(p.runes, n)
		}
		if utf8.RuneStart(c) {
			n++
		}
		if c == '\n' {
			p.lines = append(p.lines, i+1)
		}
	}
	if len(data)%block == 0 { // the end may be asked for
		p.runes = append(p.runes, n)
	}
	return p
}

// of returns the line and column of an offset.
func (p places) of(offset int) (line, column int) {
	line = sort.SearchInts(p.lines, offset+1)
	return line, 1 + p.before(offset) - p.before(p.lines[line-1])
}

// before counts the characters before an offset.
func (p places) before(offset int) int {
	n := p.runes[offset/block]
	for _, c := range p.data[offset/block*block : offset] {
		if utf8.RuneStart(c) {
			n++
		}
	}
	return n
}
