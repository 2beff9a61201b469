package sheet

import (
	"fmt"
	"math"

	"seamrail/motion/plan/trajectory"
	"seamrail/motion/track"
)

// maxMoves is how many ways are listed of each axis; one that turns more often
// is no work for a rig that is told them one by one.
const maxMoves = 8

// moves is a row for each way of each axis and for each rest between two.
func moves(t *trajectory.Trajectory) Table {
	out := Table{
		Name:  "From here to there in so many seconds",
		Heads: []string{"axis", "from", "to", "takes", "starts at", "how"},
		Notes: []string{"For a rig that takes no more than that. Real seconds, counted from frame 0 of each round."},
	}
	if t.ByHand() || t.ByFrame() { // what is set says it; one that rests for each frame goes no such way
		return Table{}
	}
	for i := range t.AxisCount() {
		out.Rows = append(out.Rows, ramp(t, i, true)...)
		ways := ways(t, i, 0, t.Shown().Float())
		for k, w := range ways {
			if k == maxMoves {
				out.Notes = append(out.Notes, fmt.Sprintf("%s goes %d ways more, which the frame table has.", t.Axis(i).Name, len(ways)-k))
				break
			}
			out.Rows = append(out.Rows, w.row(t, i))
		}
		out.Rows = append(out.Rows, back(t, i)...)
		out.Rows = append(out.Rows, ramp(t, i, false)...)
		if by := t.Advance(i); by.Sign() != 0 {
			out.Notes = append(out.Notes, fmt.Sprintf("%s goes on by %s each round.", t.Axis(i).Name, amount(by.Float(), t.Axis(i).Unit())))
		}
	}
	return out
}

// way is a stretch of a round in which an axis goes one way, or rests.
type way struct {
	track.Span
	from, to float64
}

// ways are the ways of an axis in a part of a round, in real seconds. Pieces that
// go on in the same direction are one.
func ways(t *trajectory.Trajectory, i int, begins, ends float64) []way {
	var out []way
	for _, s := range t.Spans(i) {
		s.From, s.To = max(s.From, begins), min(s.To, ends)
		if s.To <= s.From {
			continue
		}
		w := way{s, t.Position(i, s.From), t.Position(i, s.To)}
		if n := len(out); n > 0 && out[n-1].Dir == s.Dir {
			out[n-1].To, out[n-1].to = w.To, w.to
			continue
		}
		out = append(out, w)
	}
	return out
}

func (w way) row(t *trajectory.Trajectory, i int) []string {
	of := t.Axis(i).Unit()
	return []string{t.Axis(i).Name, amount(w.from, of), amount(w.to, of), seconds(w.To - w.From), seconds(w.From), w.how(t, i)}
}

// how says whether a way is gone at an even speed.
func (w way) how(t *trajectory.Trajectory, i int) string {
	if w.Dir == 0 {
		return "rests"
	}
	mean := math.Abs(w.to-w.from) / (w.To - w.From)
	top := w.fastest(t, i)
	if top <= mean*(1+evenSlack) {
		return "even, " + rate(mean, t.Axis(i).Unit())
	}
	return "eased, up to " + rate(top, t.Axis(i).Unit())
}

// evenSlack is how much faster than on average a way may be gone somewhere and
// still count as even: less than a motor's own clock is off by.
const evenSlack = 1e-3

// looks is at how many instants of a way its speed is looked at. A peak between
// two is then missed by less than the three digits that are printed.
const looks = 400

func (w way) fastest(t *trajectory.Trajectory, i int) float64 {
	top := 0.0
	for k := 1; k < looks; k++ {
		sec := w.From + (w.To-w.From)*float64(k)/looks
		top = max(top, math.Abs(t.State(i, sec).Vel))
	}
	return top
}

// back are the rows of an axis on the way back to the next round, where the loop
// has one that is not shown.
func back(t *trajectory.Trajectory, i int) [][]string {
	var out [][]string
	for _, w := range ways(t, i, t.Shown().Float(), t.Period().Float()) {
		row := w.row(t, i)
		row[len(row)-1] += unseen
		out = append(out, row)
	}
	return out
}

// unseen marks what the loop does not show.
const unseen = ", not seen"

// ramp is the row of a run-up or run-out; none where the axis rests at the seam.
func ramp(t *trajectory.Trajectory, i int, up bool) [][]string {
	r, out := t.Ramps(i)
	begins := 0.0
	if !up {
		r, begins = out, t.Period().Float()*float64(t.Rounds())
	}
	if r == nil {
		return nil
	}
	starts, how := "after the last round", "slows down"
	if up {
		begins = -r.Length()
		starts, how = seconds(-begins)+" before", "gathers speed"
	}
	if _, turns := r.Turn(); turns {
		how += ", backs up first"
		if !up {
			how = "overruns and comes back"
		}
	}
	from, to := t.TakeState(i, t.Rounds(), begins).Pos, t.TakeState(i, t.Rounds(), begins+r.Length()).Pos
	of := t.Axis(i).Unit()
	return [][]string{{t.Axis(i).Name, amount(from, of), amount(to, of), seconds(r.Length()), starts, how + unseen}}
}
