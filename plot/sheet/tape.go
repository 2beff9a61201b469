package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/rig"
)

// tapeName is over what to tape where.
const tapeName = "Tape marks to make"

// tape says of each axis where to put marks by which a hand or an eye finds its places
// again without the program: where it rests before and after the take, where frame 0
// finds it, and how far it goes.
func tape(t *trajectory.Trajectory) []string {
	var out []string
	for i := range t.AxisCount() {
		out = append(out, taped(t, i))
	}
	for i := range t.StandCount() {
		s := t.Stand(i)
		where := "on its edge and on the table beside it, out of the picture; start the take as they meet"
		if s.Phased {
			where = "on its edge and on the table beside it, where frame 0 finds it"
		}
		out = append(out, s.Name+": "+where+".")
	}
	return out
}

// spot is a place with what is there.
type spot struct {
	place string
	what  []string
}

// taped are the marks of one axis.
func taped(t *trajectory.Trajectory, i int) string {
	a, from := t.Axis(i), "home"
	var spots []spot
	add := func(pos float64, what string) {
		name := place(marked(a, pos))
		k := slices.IndexFunc(spots, func(s spot) bool { return s.place == name })
		if k < 0 {
			k, spots = len(spots), append(spots, spot{place: name})
		}
		spots[k].what = append(spots[k].what, what)
	}
	rounds, low, high := t.Rounds(), t.Extremes(i).Min.Value, t.Extremes(i).Max.Value
	up, out := t.Ramps(i)
	begins, ends := 0.0, t.Period().Float()*float64(rounds)
	if up != nil {
		begins = -up.Length()
	}
	if out != nil {
		ends += out.Length()
	}
	add(t.TakeState(i, rounds, begins).Pos, "the take begins")
	add(t.State(i, 0).Pos, "frame 0")
	if a.Endless {
		from = "its 0"
		if by := t.Advance(i).Float(); by != 0 {
			add(t.State(i, 0).Pos+by, "frame 0 of the next round")
		}
	}
	if !a.Endless || t.Advance(i).Sign() == 0 {
		add(low, "lower end of the loop")
		add(high, "upper end of the loop")
	}
	add(t.TakeState(i, rounds, ends).Pos, "the take ends")
	if len(spots) == 1 {
		return fmt.Sprintf("%s, %s from %s: %s, where it stays.", a.Name, a.Unit(), from, spots[0].place)
	}
	words := make([]string, len(spots))
	for k, s := range spots {
		words[k] = s.place + " (" + strings.Join(s.what, ", ") + ")"
	}
	return fmt.Sprintf("%s, %s from %s: %s.", a.Name, a.Unit(), from, strings.Join(words, "; "))
}

// turn is a whole one, in degrees.
const turn = 360.0

// marked is a position as a scale with its 0 at home has it; round a table that turns on
// and on, within a turn.
func marked(a rig.Axis, pos float64) float64 {
	switch {
	case !a.Endless:
		return pos - a.Home
	case a.Kind != rig.Rotary:
		return pos
	}
	at := math.Mod(pos, turn)
	if at < 0 {
		at += turn
	}
	if at > turn-grain {
		at = 0
	}
	return at
}

// grain is half of what a place is printed to.
const grain = 0.005
