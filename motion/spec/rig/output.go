package rig

import (
	"math"
	"slices"
	"strings"

	"seamrail/motion/base/list"
)

// Serving is what hangs on an output of the controller.
type Serving int

// What an output may serve.
const (
	ServesLamp     Serving = iota // a lamp in the corner of the picture
	ServesShutter                 // the release of the camera
	ServesRecorder                // the start of a recorder of sound or picture
)

var servings = [...]string{"lamp", "shutter", "recorder"}

// String is the word of the rig file.
func (s Serving) String() string { return servings[s] }

// Output is an output of the controller that switches something: often that of the
// spindle or of the coolant, with a relay on it.
type Output struct {
	Name    string
	On, Off string // lines that switch it; "" where it has a number
	Number  int    // of a player's outputs, from 1; 0 where it has lines
	Serves  Serving
	Late    float64 // s from its switching to what hangs on it having acted
	Unsure  float64 // s that Late may be out either way
	Pulse   float64 // s, the shortest time on that does anything
	Faulty  bool    // not understood: some fault says why
}

// Output returns the output called name.
func (r Rig) Output(name string) (Output, bool) {
	for _, o := range r.Outputs {
		if o.Name == name {
			return o, true
		}
	}
	return Output{}, false
}

// OutputNames returns the names of the outputs, in the order of the file.
func (r Rig) OutputNames() []string {
	return list.Map(r.Outputs, func(o Output) string { return o.Name })
}

// DoubtfulOutput tells whether boards of the controller's kind often do not have what
// switches an output on.
func (c Controller) DoubtfulOutput(o Output) bool {
	word, _, _ := strings.Cut(o.On, " ")
	return o.Number == 0 && !slices.Contains(kinds[c.Kind].outputs, word)
}

// SwitchesBy are the words by which boards of the kind usually switch an output on.
func (k ControllerKind) SwitchesBy() []string { return kinds[k].outputs }

// SwitchesHow says what the kind makes of an output while its motors turn.
func (k ControllerKind) SwitchesHow() string { return kinds[k].switching }

// mostInexact is by how much of itself an exposure may be longer or shorter for its end to be
// the board's: a twentieth of a stop, which nobody sees.
const mostInexact = 0.035

// ExposureDwell is the dwell after which the board itself ends an exposure of so many s; 0
// where its grain allows none that is as exact as an exposure has to be.
func (c Controller) ExposureDwell(sec float64) float64 {
	if c.DwellGrain <= 0 || c.Kind.PlaysSteps() {
		return sec
	}
	told := math.Round(sec/c.DwellGrain) * c.DwellGrain
	if math.Abs(told-sec) > mostInexact*sec {
		return 0
	}
	return told
}
