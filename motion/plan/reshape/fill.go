package reshape

import (
	"math"
	"slices"

	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
)

// axle is an axis of the rig as its moves see it.
func (b Bench) axle(a rig.Axis) move.Axle {
	return move.Axle{Name: a.Name, Rotary: a.Kind == rig.Rotary, Endless: a.Endless, Min: a.Min, Max: a.Max, Driven: b.Rig.Controller.Kind.Driven()}
}

// past is where an axis went so far, and false where nothing is known of it.
func (b Bench) past(name string) (move.Past, bool) {
	if b.Plan == nil {
		return move.Past{}, false
	}
	i := slices.IndexFunc(b.Plan.Axes, func(a plan.Axis) bool { return a.Move.Name == name })
	if i < 0 {
		return move.Past{}, false
	}
	a := b.Plan.Axes[i]
	return move.Past{
		Axle: b.axle(a.Rig), Loop: b.Shot.Loop, Does: a.Move.Does, Track: a.Track,
		Faces: b.faces(), Away: math.Round(b.distance()), Focal: b.scene().Lens.FocalLength.Value,
		Carriages: b.carriages(name), Stirs: b.stirs(name),
	}.Went(), true
}

// carriages are the axes that one could follow: those that slide by a move of their own.
func (b Bench) carriages(name string) []move.Carriage {
	slides := func(a plan.Axis) bool {
		_, follows := a.Move.Does.(move.Follower)
		return a.Move.Name != name && a.Rig.Kind == rig.Linear && !follows
	}
	return list.Map(slices.DeleteFunc(slices.Clone(b.Plan.Axes), func(a plan.Axis) bool { return !slides(a) }),
		func(a plan.Axis) move.Carriage { return move.Carriage{Name: a.Move.Name, Start: a.Track.At(0).Pos} })
}

// atRest, mm or degrees a real second, is what floats leave of no speed at all.
const atRest = 1e-6

// stirs tells whether another axis moves at the seam, other than evenly.
func (b Bench) stirs(name string) bool {
	return slices.ContainsFunc(b.Plan.Axes, func(a plan.Axis) bool {
		t, turns := a.Move.Does.(move.Turner)
		_, passes := a.Move.Does.(move.Passer)
		_, follows := a.Move.Does.(move.Follower)
		return a.Move.Name != name && !passes && !follows && !(turns && t.Steady()) && math.Abs(a.Track.At(0).Vel) > atRest
	})
}

// fills are what a kind of move needs, one way after the other; a kind that says nothing
// of that is begun by its example.
func (b Bench) fills(name, kind string) []source.Row {
	k, ok := move.Named(kind)
	p, known := b.past(name)
	if !ok || !known {
		return []source.Row{{}}
	}
	return k.Becomes(p)
}
