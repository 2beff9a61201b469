package vibration

import (
	"errors"
	"math"
	"sort"

	"seamrail/motion/track"
	"seamrail/motion/vibration/spring"
)

// Response is how the load of an axis swings over one round of an endless
// loop, once every round is like the one before.
type Response struct {
	Spring spring.Spring
	track  *track.Track
	panels []panel
	states []spring.State // just before each panel, then at the end
}

// maxSwings bounds the work: a loop of so many swings takes a tenth of a
// second or so.
const maxSwings = 20_000

// ErrLong says that a loop lasts too many swings to follow each.
var ErrLong = errors.New("the loop lasts more than 20000 swings of the rig; in one so slow the load follows the carriage, but for the lag of its acceleration")

// jumpSlack is the share of the greatest speed below which a difference across
// a joint is rounding: that of the track's own extremes.
const jumpSlack = 1e-9

// Of returns the response of a spring to a track. It fails where no round is
// like the one before: see ErrGrows. It panics if the spring is out of bounds.
//
// The swing is exact to rounding: between breaks the answer to the
// acceleration is integrated by Gauss-Legendre panels that leave nothing, and
// carried on by the closed form of the free swing.
func Of(t *track.Track, s spring.Spring) (*Response, error) {
	if err := s.Check(); err != nil {
		panic("vibration: " + err.Error())
	}
	if t.Period().Float()*s.Frequency > maxSwings {
		return nil, ErrLong
	}
	r := &Response{Spring: s, track: t, panels: panels(s, stretches(t))}
	start, err := s.Steady(t.Period().Float(), run(r.panels, spring.State{}))
	if err != nil {
		return nil, err
	}
	r.states = walk(r.panels, start)
	return r, nil
}

func walk(panels []panel, x spring.State) []spring.State {
	out := make([]spring.State, 0, len(panels)+1)
	for i := range panels {
		out = append(out, x)
		x = panels[i].end(x)
	}
	return append(out, x)
}

// stretches cuts a track at its breaks.
func stretches(t *track.Track) []stretch {
	breaks := t.Breaks()
	slack := jumpSlack * math.Abs(t.Extremes().Speed.Value)
	var out []stretch
	for i := 0; i+1 < len(breaks); i++ {
		from, to := breaks[i], breaks[i+1]
		c := t.Cursor(track.Span{From: from, To: to})
		st := stretch{from: from, to: to, acc: func(sec float64) float64 {
			_, _, a := c.At(sec)
			return a
		}}
		if jump := t.At(from).Vel - t.Before(from).Vel; math.Abs(jump) > slack {
			st.kick = jump
		}
		out = append(out, st)
	}
	return out
}

// At returns the state at sec seconds of the loop; any round is like another.
func (r *Response) At(sec float64) spring.State {
	period := r.track.Period().Float()
	sec -= math.Floor(sec/period) * period
	i := max(0, sort.Search(len(r.panels), func(i int) bool { return r.panels[i].from > sec })-1)
	return r.within(i, sec-r.panels[i].from)
}

// within is the state sec seconds into panel i.
func (r *Response) within(i int, sec float64) spring.State {
	p := &r.panels[i]
	x := p.begin(r.states[i])
	if sec <= 0 {
		return x
	}
	return r.Spring.Free(sec).Times(x).Plus(pushed(r.Spring, p.acc, p.from, sec))
}

// Lag returns how far the load would hang back if the acceleration at sec had
// lasted for ever, in units: -a/w^2. It grows and goes with the move; what the
// load does beside it is seen as shaking.
func (r *Response) Lag(sec float64) float64 {
	w := r.Spring.Omega()
	return -r.track.At(sec).Acc / (w * w)
}

// First returns the swing at frame 0 of round n, counted from 0, of a take
// that begins with the load at rest: less than the steady state or more, until
// it has forgotten.
func (r *Response) First(n int) spring.State { return r.From(spring.State{}, n) }

// From is First of a take at whose frame 0 the load is in a state.
func (r *Response) From(begins spring.State, n int) spring.State {
	off := spring.State{Pos: begins.Pos - r.states[0].Pos, Vel: begins.Vel - r.states[0].Vel}
	return r.states[0].Plus(r.Spring.Free(float64(n) * r.track.Period().Float()).Times(off))
}

// Carried returns the state of a load that was at rest once its foot has gone with
// an acceleration in units/s2, smooth between breaks, from the first of them, in s,
// to the last.
func Carried(s spring.Spring, acc func(sec float64) float64, breaks []float64) spring.State {
	var all []stretch
	for i := 0; i+1 < len(breaks); i++ {
		all = append(all, stretch{from: breaks[i], to: breaks[i+1], acc: acc})
	}
	return run(panels(s, all), spring.State{})
}

// Settles returns after how many rounds of a take that begins at rest the load
// is within share of the steady state, as a share of the swing it is off by at
// first.
func (r *Response) Settles(share float64) int {
	if r.Spring.Swing(r.states[0]) == 0 {
		return 0
	}
	return int(math.Ceil(r.Spring.Fades(1, share) / r.track.Period().Float()))
}
