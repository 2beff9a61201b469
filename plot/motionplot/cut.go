package motionplot

import "seamrail/plot/internal/style"

// shown is how many frames come before the seam of the picture.
func (d Data) shown() int64 {
	if d.Shown > 0 {
		return d.Shown
	}
	return d.Captured
}

// seam is when the picture comes round, in real seconds from frame 0.
func (d Data) seam() float64 { return d.Period * float64(d.shown()) / float64(d.Captured) }

// wayBack shades what nobody sees of a loop with a cut.
func (p *page) wayBack(pan style.Panel) {
	if p.d.Shown > 0 {
		pan.Band(p.d.seam()*p.d.stretch(), p.d.OnScreen)
	}
}
