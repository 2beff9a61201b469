package figure

import (
	"fmt"

	"gonum.org/v1/plot/vg"

	"seamrail/plot/internal/look"
)

// shown is how many frames come before the seam of the picture.
func (d Data) shown() int64 {
	if d.Shown > 0 {
		return d.Shown
	}
	return d.Captured
}

// seam is when the picture comes round, in real seconds from frame 0.
func (d Data) seam() float64 { return d.Period * float64(d.shown()) / float64(d.Captured) }

// wayBack shades what nobody sees of a loop with a cut, and says so where there
// is room.
func (p *page) wayBack(pan look.Panel, named bool) {
	if p.d.Shown == 0 {
		return
	}
	from := p.d.seam() * p.d.stretch()
	pan.Band(from, p.d.OnScreen)
	if !named {
		return
	}
	text := fmt.Sprintf("way back, %d frames, unseen", p.d.Captured-p.d.Shown)
	st := look.Style{Size: look.Small, Color: look.Muted}
	if room := pan.Right - pan.X(from); look.TextWidth(text, st)+8 > room {
		return
	}
	p.sheet.Text(pan.X((from+p.d.OnScreen)/2), pan.Bottom+(pan.Top-pan.Bottom)*vg.Length(0.1), text, st)
}
