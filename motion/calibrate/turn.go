package calibrate

import (
	"fmt"
	"math"
)

// fullTurn is a turn, in degrees.
const fullTurn = 360

// Marked is a table that was told whole turns, and how far its mark then stood beyond
// where it was, in degrees; below 0 it fell short.
type Marked struct {
	Turns  float64 // told, > 0
	Beyond float64
}

// maxBeyond is how far a mark may be off, in degrees: beyond half a turn nobody can tell
// on which side.
const maxBeyond = 180

// Turned is how far a table turns for what it is told, from a mark read to a division,
// in degrees.
func Turned(m Marked, division float64) (Scale, error) {
	switch {
	case !(m.Turns > 0):
		return Scale{}, fmt.Errorf("a marked turn must be more than nothing")
	case math.Abs(m.Beyond) > maxBeyond:
		return Scale{}, fmt.Errorf("a mark %g deg off cannot be told from one on the other side; turn less, or set the ratio about right first", m.Beyond)
	}
	told := m.Turns * fullTurn
	return Ruler{Division: division}.Scale([]Stretch{{Told: told, To: told + m.Beyond}})
}

// Arc is the angle of a length along a circle, in degrees.
func Arc(length, radius float64) float64 { return length / radius * fullTurn / (2 * math.Pi) }

// TurnsUntil is how many turns it takes until the seam of a table is off by a bound, in
// degrees, where each turn adds the error of a turn; +Inf for none.
func (s Scale) TurnsUntil(bound float64) float64 {
	each := math.Abs(s.Off(fullTurn).Value)
	if each == 0 {
		return math.Inf(1)
	}
	return bound / each
}
