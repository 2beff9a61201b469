package plan

import (
	"fmt"
	"math"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// byHand makes a shot one that a rig with two ends and a time of its own films: the law
// of each move is the rig's, its times are among those that the buttons offer, and what
// the loop is longer by is spent at rest at the near end. The set-up is nil for a rig
// that is driven, which keeps the shot as it is.
func byHand(s shot.Shot, r rig.Rig) (shot.Shot, *Set, fault.List) {
	if r.Controller.Kind.Driven() || len(r.Axes) == 0 || s.ByFrame != nil { // which is refused as a whole
		return s, nil, nil
	}
	faults := askedOf(s, r)
	var moving []int
	for i, m := range s.Axes {
		axis, there := r.Axis(m.Name)
		if !there || m.Faulty || axis.Faulty || m.Stays() {
			continue
		}
		if f := unmakeable(s, m); f != nil {
			faults = append(faults, *f)
			continue
		}
		faults = append(faults, placesOf(s, axis, m)...)
		moving = append(moving, i)
	}
	if len(faults) > 0 || len(moving) == 0 || s.Loop.Captured == 0 {
		return s, nil, faults
	}
	first := s.Axes[moving[0]]
	for _, i := range moving[1:] {
		if !sameDwells(first, s.Axes[i]) {
			f := placed(s, s.Axes[i])
			f.Quantity, f.Bound = "dwell-far and dwell-near", "must be those of "+first.Name+": one button starts both"
			return s, nil, fault.List{f}
		}
	}
	set, f := setFor(s, r.Controller.Buttons, first)
	if f != nil {
		return s, nil, fault.List{*f}
	}
	return withOwnLaw(s, r.Controller.Buttons, *set, moving)
}

// askedOf is what a shot asks of the whole rig and one that is started by hand cannot do.
func askedOf(s shot.Shot, r rig.Rig) fault.List {
	var out fault.List
	b := r.Controller.Buttons
	if s.Quickest {
		out = append(out, fault.Fault{File: s.File, Quantity: "clock.pace",
			Bound: "cannot be chosen by what the rig can do: its buttons say how long a way takes",
			Fit:   "state the loop; the times are " + b.Times.Words(unit.Time)})
	}
	if !b.Trips.Offers(int64(s.Rounds)) {
		out = append(out, fault.Fault{File: s.File, Quantity: "take.rounds", Value: fmt.Sprint(s.Rounds),
			Bound: "is not among the round trips that its buttons offer", Fit: "they offer " + b.Trips.Counts.Words(unit.Number)})
	}
	return out
}

// unmakeable is what keeps such a rig from making a move, nil for nothing.
func unmakeable(s shot.Shot, m shot.AxisMove) *fault.Fault {
	f := placed(s, m)
	tell := func(quantity, bound, fit string) *fault.Fault {
		f.Quantity, f.Bound, f.Fit = quantity, bound, fit
		return &f
	}
	w, goes := m.Does.(move.Shuttle)
	if !goes {
		return tell(fmt.Sprintf("move %q", m.Kind()), "is none that a rig can make on which two ends and a time are set",
			`"there-and-back" and "hold" are`)
	}
	going := w.Going()
	switch {
	case m.Shaped != 0:
		return tell("shaped", "is of no use: the rig goes by a ramp of its own", "leave it out")
	case going.Cycles != 1:
		return tell("cycles", fmt.Sprintf("is %d, and a round of such a rig is once there and back", going.Cycles), "make the loop one of them: it repeats all the same")
	case !going.OutShare.Equal(exact.New(1, 2)):
		return tell("out-share", "is "+going.OutShare.String()+", and such a rig takes as long back as out", "leave it out")
	case going.Phase.Sign() != 0:
		return tell("phase", "is "+going.Phase.String()+", and such a rig sets out from the end at which it rests", "leave it out")
	}
	return nil
}

// placesOf are the faults of ends that the rig cannot be set to.
func placesOf(s shot.Shot, axis rig.Axis, m shot.AxisMove) fault.List {
	var out fault.List
	near, far := m.Does.(move.Ended).Ends()
	check := func(key string, v unit.Quantity, offers rig.Offers, what string) {
		if offers == nil || offers.Has(v.Value) {
			return
		}
		f := placed(s, m)
		f.Quantity, f.Value, f.Bound = key, v.String(), "is none of the "+what+" that it offers, "+offers.Words(v.Dim)
		for _, x := range offers.Nearest(v.Value) {
			f.Fit = and(f.Fit, unit.Format(x.Float(), v.Dim))
		}
		f.Fit = "nearest: " + f.Fit
		out = append(out, f)
	}
	check("from", near, axis.Stops, "stops")
	check("to", far, axis.Stops, "stops")
	check("the way from end to end", unit.Quantity{Value: far.Value.Sub(near.Value).Abs(), Dim: near.Dim}, axis.Distances, "distances")
	return out
}

func and(a, b string) string {
	if a == "" {
		return b
	}
	return a + " and " + b
}

func waysOf(m shot.AxisMove) move.Ways { return m.Does.(move.Shuttle).Going() }

func sameDwells(a, b shot.AxisMove) bool {
	x, y := waysOf(a), waysOf(b)
	return x.DwellFar.Equal(y.DwellFar) && x.DwellNear.Equal(y.DwellNear)
}

// withOwnLaw gives the moves the rig's own law and times.
func withOwnLaw(s shot.Shot, b rig.Buttons, set Set, moving []int) (shot.Shot, *Set, fault.List) {
	own := set.own
	s.Axes = slices.Clone(s.Axes)
	var faults fault.List
	for _, i := range moving {
		m := &s.Axes[i]
		does := m.Does.(move.Shuttle)
		if f := otherLaw(s, *m, own, b.Ramp); f != nil {
			faults = append(faults, *f)
		}
		w := does.Going().WithLaws(own, own)
		w.DwellFar, w.DwellNear = set.RestFar, set.RestNear
		m.Does = does.WithWays(w)
	}
	return s, &set, faults
}

// sameLaw is how far, as a share of the way, a law that the shot states may be from the
// rig's own: a nanometre in a metre.
const sameLaw = 1e-9

// otherLaw is the fault of a law that the shot states and the rig does not go by, nil
// where it goes by it or none is stated.
func otherLaw(s shot.Shot, m shot.AxisMove, own law.Law, r rig.Ramp) *fault.Fault {
	does, states := m.Does.(move.LawStated)
	if !states || !does.StatesLaw() {
		return nil
	}
	out, back := m.Does.(move.UnderLaw).Laws()
	if alike(out, own) && (back == nil || alike(back, own)) {
		return nil
	}
	f := placed(s, m)
	f.Quantity, f.Value = "law", fmt.Sprintf("%q", out.Name())
	f.Bound = "is not how the rig goes, which has a ramp of its own, " + r.Words()
	f.Fit = "leave law out: the rig's own is then planned with"
	return &f
}

func alike(a, b law.Law) bool {
	const looks = 256
	for k := range looks {
		u := float64(k) / looks
		if math.Abs(a.At(u).S-b.At(u).S) > sameLaw {
			return false
		}
	}
	return true
}

func secs(v exact.Rat) string { return unit.Format(v.Float(), unit.Time) }
