package reach

import (
	"slices"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
	"seamrail/motion/turntable/spin"
)

// AtLoop is the shot in another loop, with its clock and the speeds of its stands: what
// was stated on screen keeps its time there.
func AtLoop(s shot.Shot, l spin.Loop) shot.Shot {
	times := l.Clock.Retime.Quo(s.Clock.Retime)
	s.Clock, s.Loop = l.Clock, l.Loop
	axes := make([]shot.AxisMove, len(s.Axes))
	for i, m := range s.Axes {
		if timed, ok := m.Does.(move.Timed); ok {
			m.Does = timed.Retimed(times)
		}
		axes[i] = m
	}
	s.Axes = axes
	spins := make([]shot.Spin, len(s.Spins))
	for i, one := range s.Spins {
		spins[i] = one
		if i < len(l.Seams) {
			spins[i].Speed, spins[i].Symmetry = l.Seams[i].Speed.Name, l.Seams[i].Product.Symmetry
		}
	}
	s.Spins = spins
	return s
}

// LoopEdits make the shot's file one in such a loop. Another product than the file has is
// for a hand, and nothing is said of it.
func LoopEdits(s shot.Shot, l spin.Loop) []fault.Edit {
	out := []fault.Edit{loopEdit(l.Loop)}
	if !l.Clock.Capture.Equal(s.Clock.Capture) {
		out = append(out, fault.Edit{Path: "clock.capture", Text: l.Clock.Capture.String()})
	}
	retime := l.Clock.Playback.Quo(l.Clock.Capture) // where the file leaves it to the rates
	if s.Raw().Clock.Retime.Set {
		retime = s.Clock.Retime
	}
	if !l.Clock.Retime.Equal(retime) {
		out = append(out, fault.Edit{Path: "clock.retime", Text: l.Clock.Retime.String()})
	}
	for i, one := range s.Spins {
		if i < len(l.Seams) && l.Seams[i].Speed.Name != one.Speed {
			out = append(out, fault.Edit{Path: source.Join("spin", one.Name) + ".speed", Text: l.Seams[i].Speed.Name})
		}
	}
	return out
}

// ClosesAs tells whether the shot closes on a rig with such values in its file.
func ClosesAs(s shot.Shot, r rig.Rig, edits []fault.Edit) bool {
	changed, err := Changed(s, edits)
	return err == nil && Closes(changed, r)
}

// Changed is the shot as its file would give it with such values.
func Changed(s shot.Shot, edits []fault.Edit) (shot.Shot, error) {
	return s.Changed(list.Map(edits, func(e fault.Edit) source.Override {
		return source.Override{Path: e.Path, Text: e.Text, Origin: "what would help"}
	})...)
}

// Closes tells whether a shot has a plan that keeps the limits and at whose seam every
// stand is within its bound, and known to be where the shot states one.
func Closes(s shot.Shot, r rig.Rig) bool {
	p, err := plan.Build(s, r)
	if err != nil || len(p.Breaches()) > 0 {
		return false
	}
	return !slices.ContainsFunc(p.Stands, func(one plan.Stand) bool {
		return !one.Seam.Closes() || one.Refuses()
	})
}
