package clipplot

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/style"
)

// maxListed is how many cuts are told in words; a strip of more is a picture
// only, and the report tells the rest.
const maxListed = 24

// entry is one piece of the lists: words with a mark before them or a name.
type entry struct {
	name  string
	words string
	mark  Mark
	sign  bool
}

// lists are the cuts and, beside them, what the letters and numbers of the bars
// stand for.
func (d Data) lists() [][2]entry {
	var cuts, ways []entry
	for i, c := range d.Cuts {
		if i == maxListed {
			cuts = append(cuts, entry{words: fmt.Sprintf("and %d more", len(d.Cuts)-i)})
			break
		}
		cuts = append(cuts, entry{words: c.Words, mark: c.Mark, sign: true})
	}
	for i, r := range d.Rigs {
		ways = append(ways, entry{name: "rig " + letter(i), words: r})
	}
	for i, l := range d.Lights {
		ways = append(ways, entry{name: "light " + style.Number(float64(i+1)), words: l})
	}
	out := make([][2]entry, max(len(cuts), len(ways)))
	for i, c := range cuts {
		out[i][0] = c
	}
	for i, w := range ways {
		out[i][1] = w
	}
	return out
}

func (d Data) writeLists(s *style.Sheet, y vg.Length, lists [][2]entry) {
	const half = width / 2
	y -= gap
	for _, line := range lists {
		line[0].write(s, style.Edge, y-style.Small, half-style.Edge-8)
		line[1].write(s, half+8, y-style.Small, half-style.Edge-8)
		y -= row
	}
}

func (e entry) write(s *style.Sheet, x, y, room vg.Length) {
	if e.sign {
		sign(s, vg.Point{X: x + 5, Y: y + style.Small*0.35}, e.mark)
		x, room = x+16, room-16
	}
	st := style.Style{Size: style.Small, Color: style.Ink, Align: -1}
	if e.name != "" {
		bold := st
		bold.Bold = true
		w := s.Text(x, y, e.name, bold) + 8
		x, room = x+w, room-w
	}
	s.Text(x, y, style.Fit(e.words, room, st), st)
}
