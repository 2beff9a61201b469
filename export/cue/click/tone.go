package click

import (
	"math"
	"sync"
)

const (
	// warnHz and nowHz are an octave apart, so that no one takes one for the
	// other, and where ears and small speakers are good.
	warnHz, nowHz = 1000, 2000
	// markHz is an octave above those, and markMs as short as a tone that high is heard as
	// one: a sync mark is a sharp spike in the recorded sound, like nothing else in it.
	markHz, markMs = 4000, 20
	// warnMs and nowMs are how long the tones are: clicks, with a pitch. Beats
	// are a tenth of a second apart at least, so that none runs into the next.
	warnMs, nowMs = 40, 80
	// fadeMs is how long a tone takes to end, so that its end is no click.
	fadeMs = 5
	// loudness is the peak of a tone: two at once stay within full scale.
	loudness = 0.45
	// behind is how much softer the count-in is than a hand's own count.
	behind = 0.35
)

var (
	warning = sync.OnceValue(func() []float64 { return tone(warnHz, warnMs) })
	now     = sync.OnceValue(func() []float64 { return tone(nowHz, nowMs) })
	mark    = sync.OnceValue(func() []float64 { return tone(markHz, markMs) })
	// begins is the last of the count-in: the warning, twice as long.
	begins = sync.OnceValue(func() []float64 { return tone(warnHz, 2*warnMs) })
)

// tone makes the samples of a tone, of peak 1. It begins at once, from near
// nothing: its first sample is half a sample into the sine, and not 0.
func tone(hz float64, ms int) []float64 {
	out := make([]float64, ms*Rate/1000)
	fade := fadeMs * Rate / 1000
	for i := range out {
		out[i] = math.Sin(2 * math.Pi * hz * (float64(i) + 0.5) / Rate)
		if left := len(out) - i; left < fade {
			out[i] *= (1 - math.Cos(math.Pi*float64(left)/float64(fade))) / 2
		}
	}
	return out
}
