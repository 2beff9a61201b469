package page

import (
	"fmt"
	"math"

	"seamrail/cmd/internal/job"
	"seamrail/motion/exact"
	"seamrail/motion/shot"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// The kinds of handle.
const (
	endHandle     = "end"
	keyHandle     = "key"
	dwellHandle   = "dwell"
	advanceHandle = "advance"
)

// What a handle changes.
const (
	varyPos  = "pos"
	varyTime = "time"
	varyBoth = "both"
)

// Handle is a point of the curve that can be dragged.
type Handle struct {
	Path  string   `json:"path"`
	Kind  string   `json:"kind"`
	Vary  string   `json:"vary"`
	Frame float64  `json:"frame"` // captured
	Pos   float64  `json:"pos"`   // mm or degrees
	Label string   `json:"label"`
	Unit  string   `json:"unit"`
	Min   *float64 `json:"min"` // mm or degrees, null where there is no bound
	Max   *float64 `json:"max"`

	axis int
	key  int // of a key, from 0
}

// handles are those of axis i.
func handles(p *job.Job, i int) []Handle {
	a := p.Plan.Axes[i]
	h := shaper{a.Move, p, Handle{Unit: a.Rig.Unit(), axis: i}}
	if !a.Rig.Endless {
		h.like.Min, h.like.Max = &a.Rig.Min, &a.Rig.Max
	}
	switch a.Move.Move {
	case shot.ThereAndBack:
		return h.thereAndBack()
	case shot.Through:
		return []Handle{
			h.end("from", "where it begins", 0, a.Move.From.Float()),
			h.end("to", "where it ends", h.captured(), a.Move.To.Float()),
		}
	case shot.Turn:
		start, turned := a.Move.Start.Float(), a.Move.Turns.Float()*degreesPerTurn
		last := h.made("turns", advanceHandle, varyPos, "the turn", h.captured(), start+turned)
		return []Handle{h.end("start", "where it begins", 0, start), last}
	case shot.Hold:
		return []Handle{h.end("at", "where it stays", 0, a.Move.At.Float())}
	case shot.Keys:
		return h.keys()
	}
	return nil
}

// shaper makes the handles of one axis.
type shaper struct {
	move shot.AxisMove
	p    *job.Job
	like Handle
}

func (h shaper) made(key, kind, vary, label string, frame, pos float64) Handle {
	out := h.like
	out.Path, out.Kind, out.Vary = source.Join("axis", h.move.Name)+"."+key, kind, vary
	out.Label, out.Frame, out.Pos = h.move.Name+", "+label, frame, pos
	return out
}

func (h shaper) end(key, label string, frame, pos float64) Handle {
	return h.made(key, endHandle, varyPos, label, frame, pos)
}

func (h shaper) captured() float64 { return float64(h.p.Trajectory.Captured()) }

// rate is captured frames a real second.
func (h shaper) rate() float64 { return h.p.Shot.Clock.Capture.Float() }

// thereAndBack has its ends and the dwells at them, of the first cycle.
func (h shaper) thereAndBack() []Handle {
	m := h.move
	out := []Handle{
		h.end("from", "near end", h.at(0), m.From.Float()),
		h.end("to", "far end", h.at(h.out().Float()), m.To.Float()),
	}
	if h.p.Shot.Quickest {
		return out
	}
	return append(out,
		h.made("dwell-far", dwellHandle, varyTime, "end of the rest at the far end", h.at(h.out().Add(m.DwellFar).Float()), m.To.Float()),
		h.made("dwell-near", dwellHandle, varyTime, "beginning of the rest at the near end", h.at(h.cycle().Sub(m.DwellNear).Float()), m.From.Float()))
}

// cycle is the real seconds of one time there and back.
func (h shaper) cycle() exact.Rat {
	return h.p.Shot.Loop.Real().Quo(exact.Int(int64(h.move.Cycles)))
}

// out is the real seconds of the way out.
func (h shaper) out() exact.Rat {
	return h.cycle().Sub(h.move.DwellFar).Sub(h.move.DwellNear).Mul(h.move.OutShare)
}

// shift is the real seconds into its cycle at which frame 0 finds the move.
func (h shaper) shift() float64 {
	return h.move.Phase.Mul(h.p.Shot.Loop.Real()).Float()
}

// at is the captured frame, within the loop, of an instant of the first cycle.
// The loop's own length is no place for a handle but its end is: a rest at the
// near end is over there.
func (h shaper) at(sec float64) float64 {
	f, c := (sec-h.shift())*h.rate(), h.captured()
	if f < 0 {
		f += c
	}
	return math.Min(f, c)
}

func (h shaper) keys() []Handle {
	var out []Handle
	for i, k := range h.move.Keys {
		x := h.made(fmt.Sprintf("keys[%d]", i+1), keyHandle, varyBoth, fmt.Sprintf("key %d", i+1), k.At.Float()*h.rate(), k.Pos.Float())
		x.key = i
		out = append(out, x)
	}
	return out
}

// to is the values that a drag of the handle gives.
func (x Handle) to(p *job.Job, e Edit) ([]Set, error) {
	h := shaper{p.Plan.Axes[x.axis].Move, p, x}
	if x.Kind == dwellHandle && e.Frame != nil {
		return []Set{{x.Path, frames(h.dwell(x, *e.Frame))}}, nil
	}
	if e.Pos == nil || x.Kind == dwellHandle {
		return nil, fmt.Errorf("%s was dragged to no place", x.Path)
	}
	pos := *e.Pos
	if x.Min != nil {
		pos = math.Min(math.Max(pos, *x.Min), *x.Max)
	}
	dim := unit.Length
	if x.Unit == "deg" {
		dim = unit.Angle
	}
	switch x.Kind {
	case advanceHandle:
		return []Set{{x.Path, turnsTo(pos-h.move.Start.Float(), h.move)}}, nil
	case keyHandle:
		sets := []Set{{x.Path + ".pos", place(pos, dim)}}
		if e.Frame != nil {
			sets = append(sets, Set{x.Path + ".at", frames(h.keyAt(x.key, *e.Frame))})
		}
		return sets, nil
	}
	return []Set{{x.Path, place(pos, dim)}}, nil
}

// dwell is the timeline frames of a rest whose end, or at the near end whose
// beginning, was dragged to a captured frame. As the rest at the far end grows,
// both legs give way in their shares.
func (h shaper) dwell(x Handle, frame float64) int64 {
	sec := frame/h.rate() + h.shift()
	if loop := h.p.Shot.Loop.Real().Float(); sec > loop+settledFrame/h.rate() {
		sec -= loop
	}
	m, cycle, share := h.move, h.cycle().Float(), h.move.OutShare.Float()
	rest, other := cycle-sec, m.DwellFar.Float()
	if x.Path == source.Join("axis", m.Name)+".dwell-far" {
		other = m.DwellNear.Float()
		rest = (sec - share*(cycle-other)) / (1 - share)
	}
	most := timeline(h.p.Shot.Clock, (cycle-other)*h.rate()) - leastMoving
	return max(min(timeline(h.p.Shot.Clock, rest*h.rate()), most), 0)
}

// settledFrame is what the end of a loop may be missed by, in frames.
const settledFrame = 1e-6

// leastMoving is the timeline frames that a cycle keeps to move in.
const leastMoving = 2

// keyAt is the timeline frame of key i, kept between its neighbours.
func (h shaper) keyAt(i int, frame float64) int64 {
	c, keys := h.p.Shot.Clock, h.move.Keys
	low, high := int64(0), h.p.Shot.Loop.Screen-1
	if i > 0 {
		low = timeline(c, keys[i-1].At.Add(keys[i-1].Hold).Float()*h.rate()) + 1
	}
	if i+1 < len(keys) {
		high = timeline(c, keys[i+1].At.Sub(keys[i].Hold).Float()*h.rate()) - 1
	}
	return max(min(timeline(c, frame), high), low)
}
