package shot

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
)

// LeftOut is something that the file says and the shot goes without.
type LeftOut struct {
	Key string // "axis.table", "cue[1]"
	Why string // "as --without asks"
}

// leaving is what goes out of a shot with axes and stands that it is to do without.
type leaving struct {
	names  []string // of axes and stands, those that follow one of these too
	origin string   // the flag that asked for it
	told   []LeftOut
}

// leave takes out of a shot what speaks of axes and stands that have been taken out of
// the document: their part in the scene, what follows them, cues at their turnarounds.
func (raw *Raw) leave(over []source.Override) *leaving {
	l := &leaving{}
	for _, o := range over {
		if o.Gone {
			l.names, l.origin = append(l.names, o.Path[strings.LastIndexByte(o.Path, '.')+1:]), o.Origin
			l.tell(o.Path, "as "+o.Origin+" asks")
		}
	}
	if len(l.names) == 0 {
		return l
	}
	raw.Axis = maps.Clone(raw.Axis)
	for l.follower(raw) {
	}
	if raw.Scene != nil {
		l.ofScene(raw.Scene)
	}
	return l
}

func (l *leaving) tell(key, why string) { l.told = append(l.told, LeftOut{key, why}) }

func (l *leaving) has(name source.Text) bool { return name.Set && slices.Contains(l.names, name.Text) }

// follower takes out one axis that follows another which is out, and reports whether
// there was one.
func (l *leaving) follower(raw *Raw) bool {
	for _, name := range source.InOrder(raw.Axis, func(a move.Raw) source.Place { return a.Place }) {
		if a := raw.Axis[name]; l.has(a.Follow) {
			delete(raw.Axis, name)
			l.names = append(l.names, name)
			l.tell(source.Join("axis", name), "it follows "+a.Follow.Text)
			return true
		}
	}
	return false
}

func (l *leaving) ofScene(s *RawScene) {
	s.Axis = maps.Clone(s.Axis)
	for _, name := range l.names {
		if _, ok := s.Axis[name]; ok {
			delete(s.Axis, name)
			l.tell("scene."+source.Join("axis", name), "the part of "+name+" in the picture")
		}
	}
	if s.Product != nil && l.has(s.Product.On) {
		p := *s.Product
		l.tell("scene.product.on", "it stands on "+p.On.Text)
		p.On, s.Product = source.Text{}, &p
	}
}

// waits tells whether a cue waits for an axis that is out, where moves are those of the
// axes that are left.
func (l *leaving) waits(c RawCue, moves []AxisMove) (why string, out bool) {
	event := c.At.Text == Turnaround || c.At.Text == FarEnd || c.At.Text == NearEnd
	switch {
	case l.has(c.Axis):
		return "it waits for " + c.Axis.Text, true
	case event && !c.Axis.Set && !slices.ContainsFunc(moves, turnsRound):
		return "it waits for an axis to turn round, and none is left that does", true
	}
	return "", false
}

// turnsRound tells whether an axis may turn round in the loop.
func turnsRound(m AxisMove) bool {
	switch m.Does.(type) {
	case move.Stayer, move.Turner, move.Passer:
		return false
	}
	return true
}

// cue tells whether cue i, from 0, is out.
func (l *leaving) cue(i int, c RawCue, moves []AxisMove) bool {
	if len(l.names) == 0 {
		return false
	}
	why, out := l.waits(c, moves)
	if out {
		l.tell(fmt.Sprintf("cue[%d]", i+1), cmp.Or(c.Name.Text, "a cue")+": "+why)
	}
	return out
}

// axes reports where no axis is there to move.
func (l *leaving) axes(report *source.Report, raw Raw) {
	switch {
	case len(raw.Axis) > 0:
	case len(l.names) > 0:
		report.Add(source.Place{Origin: l.origin}, "the shot", "", "has no other axis, and nothing would move", "")
	default:
		report.Add(raw.Place, "axis", "", "is missing", "a shot moves at least one axis, such as [axis.rail]")
	}
}

// finish tells what was left out, in the shot and in its title, so that nobody takes it
// for the whole.
func (l *leaving) finish(s *Shot) {
	s.LeftOut = l.told
	if len(l.names) > 0 {
		s.Title += " (without " + strings.Join(l.names, ", ") + ")"
	}
}
