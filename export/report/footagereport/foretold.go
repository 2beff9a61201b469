package footagereport

import (
	"fmt"
	"math"

	"seamrail/export/report"
	"seamrail/motion/footage/brightness"
)

// Foretold is how the plan said that the lamps would flicker.
type Foretold struct {
	Beat  float64 // Hz as it is filmed; 0 where it keeps step with the frames
	Depth float64 // (brightest - darkest)/(brightest + darkest) of frames, of what faces the lamp, 0 to 1
}

const (
	// mainsOff is by how many Hz the mains may have a beat off on ordinary days: 0.1 Hz of 50, and
	// twice that of a lamp that ripples at twice it (common practice).
	mainsOff = 0.2
	// surely is how many standard uncertainties count.
	surely = 3
	// hardly is a depth that nobody sees: a hundredth (common practice, as the plan's own bound).
	hardly = 0.01
)

// beats tells whether a flicker is the one that was foretold.
func (f Foretold) beats(seen brightness.Flicker) bool {
	return f.Depth > 0 && math.Abs(seen.Frequency-f.Beat) <= surely*seen.FrequencyDoubt+mainsOff
}

// foretold holds what the light did to what the plan said that it would.
func (d Data) foretold(r *report.Report) {
	f := d.Foretold
	if f == nil {
		return
	}
	words := "that lamps burn steadily"
	if f.Depth > 0 {
		words = fmt.Sprintf("%s %% at %s Hz as it is filmed, on what faces the lamp", report.Digits(100*f.Depth, 2), report.Digits(f.Beat, 4))
	}
	tone, how := d.asForetold(*f)
	r.Toned(tone, "foretold", words+": "+how)
}

// asForetold is the sentence on it.
func (d Data) asForetold(f Foretold) (report.Tone, string) {
	for _, seen := range d.Light.Flicker {
		if f.beats(seen) {
			return report.Plain, fmt.Sprintf("so it is, by %s %% of the whole picture", report.Digits(seen.Percent, 2))
		}
	}
	lamp := false
	for _, seen := range d.Light.Flicker {
		lamp = lamp || lampWords(seen.Lamps) != ""
	}
	switch {
	case lamp:
		return report.Fair, "not what was filmed; a lamp in the shot file ripples otherwise, or one is missing there"
	case f.Depth > 0 && f.Beat == 0:
		return report.Plain, "it keeps step with the frames, and no flicker was filmed"
	case f.Depth <= hardly:
		return report.Plain, "none was filmed"
	}
	return report.Fair, "none was filmed: a lamp ripples less than the shot file says, or lights little of the picture"
}
