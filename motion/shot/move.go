package shot

import (
	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/shake"
	"seamrail/motion/unit"
)

// The moves, as the file names them.
const (
	ThereAndBack = "there-and-back"
	Turn         = "turn"
	Keys         = "keys"
	Hold         = "hold"
	Through      = "through"
	Aim          = "aim"
	Arc          = "arc"
)

// Moves lists every move.
func Moves() []string { return []string{ThereAndBack, Through, Turn, Keys, Hold, Aim, Arc} }

// AxisMove is what one axis does during the loop. Positions are in mm or
// degrees, as their dimension says; times are real seconds. Fields of another
// move than Move are zero.
type AxisMove struct {
	Name   string
	Move   string // one of Moves
	Line   int    // of the axis in the file, 1-based
	Column int
	Origin string // the flag that added the axis; "" for the file
	Faulty bool   // not understood: some fault says why

	// there-and-back; arc, in degrees of heading; through, its From, To and Law
	From, To  unit.Quantity
	Law       law.Law   // of the way out or across, and of a turn
	BackLaw   law.Law   // of the way back
	Tuned     bool      // the file says more of the law than its name, which others do not take
	Cycles    int       // times there and back in a loop, at least 1
	OutShare  exact.Rat // share of the moving time spent on the way out, in (0, 1)
	DwellFar  exact.Rat // s at To, each cycle
	DwellNear exact.Rat // s at From, each cycle
	Phase     exact.Rat // share of the loop, in [0, 1), that frame 0 is into it

	// through
	Even exact.Rat // share of the way gone at an even speed, the law on top of it

	// aim; arc, its Point
	Follow string           // the axis that carries the lens
	As     string           // what it does: one of Pan, Tilt, Focus
	Point  [3]unit.Quantity // mm: along the rail, away from it, up from the lens
	Focal  unit.Quantity    // mm; focus only
	Marks  [2]Mark          // focus only

	// turn
	Turns    exact.Rat     // whole or part turns in a loop; below 0 backwards
	Start    unit.Quantity // where frame 0 finds it
	Symmetry int64         // faces of the product that look alike; 0 = not stated

	// hold
	At unit.Quantity

	// there-and-back, turn, keys
	Shaped shake.Shaper // so that it leaves no after-shake; 0 = as its law goes

	// keys
	Keys     []Key
	Monotone bool      // never past a key, rather than smoothest
	Advance  exact.Rat // units gained each loop: degrees, 0 on a linear axis
}

// Key is a position at a time.
type Key struct {
	At    exact.Rat      // real s from frame 0, in [0, loop)
	Pos   unit.Quantity  // mm or degrees
	Speed *unit.Quantity // units a real second through the key; nil = free
	Hold  exact.Rat      // real s to stay there
	Feel
}

// Feel is how a key is come to and left. The zero Feel leaves it to the curve.
type Feel struct {
	Tension exact.Rat     // share of the speed through it that is taken off, in [0, 1]
	EaseIn  exact.Rat     // share of the way in that slows down to rest, in [0, 1]
	EaseOut exact.Rat     // share of the way out that picks up from rest, in [0, 1]
	Within  unit.Quantity // how far off it may be passed, in mm or degrees
}

// Mark is a place of a focus axis that was found sharp at a distance, in mm
// from the lens.
type Mark struct{ Distance, Pos unit.Quantity }

// WithLaw returns the move under another law, both ways.
func (m AxisMove) WithLaw(l law.Law) AxisMove {
	m.Law, m.BackLaw = l, l
	return m
}

// WithTo returns a there-and-back with another far end, in the units of To.
func (m AxisMove) WithTo(to float64) AxisMove {
	m.To = unit.Quantity{Value: exact.FromFloat(to), Dim: m.To.Dim}
	return m
}
