package sheet

import "seamrail/plot/internal/style"

// takes are the boxes to tick.
type takes int

// ticks are what is ticked of a take.
var ticks = []string{"ran", "sharp", "keep"}

const (
	takesName = "Takes"
	takeWide  = 46.0 // mm, at least
	takeHigh  = 4.6  // mm: room to write
)

// abreast is how many lie side by side.
func (t takes) abreast(w float64) int { return max(1, int(w/takeWide)) }

func (t takes) height(p *press, w float64) float64 {
	n := t.abreast(w)
	return p.headHeight() + takeHigh*float64((int(t)+n-1)/n)
}

func (t takes) draw(p *press, x, y, w float64) error {
	y = p.headed(x, y, w, takesName) + 0.5
	n := t.abreast(w)
	each := (w + cellGap) / float64(n)
	for k := range int(t) {
		t.one(p, x+each*float64(k%n), y+takeHigh*float64(k/n), each-cellGap, k)
	}
	return nil
}

// one is a take: its number, what is ticked, and a line for a note.
func (t takes) one(p *press, x, y, w float64, k int) {
	end := x + w
	p.line(x, y, takeName(k), p.strong())
	x += p.width(takeName(int(t)-1), p.strong()) + 1.5
	side := p.size * point * 0.9
	for _, name := range ticks {
		p.box(x, y+0.25, side, side, 0.25, style.Ink)
		p.line(x+side+0.7, y, name, p.plain())
		x += side + 0.7 + p.width(name, p.plain()) + 1.8
	}
	p.blank(x, y, end-x, p.plain())
}
