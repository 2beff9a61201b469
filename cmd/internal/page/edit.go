package page

import (
	"fmt"
	"math"
	"reflect"
	"regexp"
	"strings"
	"sync"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// Edit is one change: a value as it is typed, or a place to which a handle of
// the curve (Frame, Pos) or of the view from above (X, Y) was dragged; or what Do says:
// "add", "remove", "kind" for another move, "key" for another key; of a rig "measure" for a value
// that is to be measured.
type Edit struct {
	Do    string   `json:"do,omitempty"`
	Path  string   `json:"path"`
	Value *string  `json:"value,omitempty"`
	Frame *float64 `json:"frame,omitempty"` // captured, from frame 0
	Pos   *float64 `json:"pos,omitempty"`   // mm or degrees
	X     *float64 `json:"x,omitempty"`     // mm of the view from above
	Y     *float64 `json:"y,omitempty"`
}

// same tells whether two edits are the same.
func (e Edit) same(o Edit) bool {
	return e.Do == o.Do && e.Path == o.Path && worth(e.Value, o.Value) &&
		worth(e.Frame, o.Frame) && worth(e.Pos, o.Pos) && worth(e.X, o.X) && worth(e.Y, o.Y)
}

// worth tells whether two values are the same, or both left out.
func worth[T comparable](a, b *T) bool { return a == b || a != nil && b != nil && *a == *b }

// Set is a value at a path of the shot file.
type Set struct {
	Path  string `json:"path"`
	Value string `json:"value"`
}

// place is a dragged place as the file has it.
func place(at float64, dim unit.Dimension) string { return move.Place(at, move.DragGrain, dim) }

// dragged turns a drag into values.
func dragged(p *job.Job, e Edit) ([]Set, error) {
	for _, x := range []*float64{e.Frame, e.Pos, e.X, e.Y} {
		if x != nil && (math.IsNaN(*x) || math.Abs(*x) > farthest) {
			return nil, fmt.Errorf("%s cannot be dragged there", e.Path)
		}
	}
	switch {
	case e.Path == loopPath && e.Frame != nil:
		return loopTo(p.Shot, *e.Frame)
	case strings.HasPrefix(e.Path, abovePath) && e.X != nil && e.Y != nil:
		return draggedAbove(p, e.Path, *e.X, *e.Y)
	}
	for i := range p.Trajectory.AxisCount() {
		for _, h := range handles(p, i) {
			if h.Path == e.Path {
				return h.to(p.Trajectory.Axis(i).Name, e)
			}
		}
	}
	return nil, fmt.Errorf("%s is nothing that can be dragged", e.Path)
}

// farthest is beyond any loop in frames and any rig in mm.
const farthest = 1e7

// loopPath is the length of the loop.
const loopPath = "clock.loop"

// nearLoops is how many frames away a loop is looked for that has whole
// captured frames: the rates of cameras have one within that.
const nearLoops = 60

// loopTo is the loop of whole frames nearest to a captured frame.
func loopTo(s shot.Shot, frame float64) ([]Set, error) {
	n := max(move.Timeline(s.Clock, frame), 1)
	for away := range int64(nearLoops) {
		for _, m := range []int64{n - away, n + away} {
			if m < 1 {
				continue
			}
			if _, err := s.Clock.LoopFrames(m); err == nil {
				return []Set{{loopPath, move.FramesText(m)}}, nil
			}
		}
	}
	_, err := s.Clock.LoopFrames(n)
	return nil, err
}

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
	Step  float64  `json:"step"` // to the next place it can have; 0 = it can have any

	drag func(move.Pull) []move.Edit
}

// handles are those of axis i.
func handles(p *job.Job, i int) []Handle {
	a := p.Plan.Axes[i]
	h := Handle{Unit: a.Rig.Unit()}
	if !a.Rig.Endless {
		h.Min, h.Max = &a.Rig.Min, &a.Rig.Max
	}
	var out []Handle
	for _, g := range a.Move.Does.Grips(move.Stage{Loop: p.Shot.Loop, Captured: p.Trajectory.Captured(), Quickest: p.Shot.Quickest}) {
		h.Path, h.Kind, h.Vary = pathOf(a.Move.Name, g.Key), g.Kind, g.Vary
		h.Step = 0
		if t, ok := a.Move.Does.(move.Turner); ok && g.Kind == move.AdvanceGrip {
			h.Step = t.Step()
		}
		h.Label, h.Frame, h.Pos, h.drag = a.Move.Name+", "+g.Label, g.Frame, g.Pos, g.Drag
		out = append(out, h)
	}
	return out
}

func pathOf(axis, key string) string { return source.Join("axis", axis) + "." + key }

// sets are edits of an axis as values of the file.
func sets(axis string, edits []move.Edit) []Set {
	return listOf(edits, func(e move.Edit) Set { return Set{pathOf(axis, e.Key), e.Text} })
}

// to is the values that a drag of the handle of an axis gives.
func (x Handle) to(axis string, e Edit) ([]Set, error) {
	pull := move.Pull{Frame: e.Frame}
	switch {
	case x.Vary == move.VaryTime && e.Frame != nil:
		return sets(axis, x.drag(pull)), nil
	case x.Vary == move.VaryTime || e.Pos == nil:
		return nil, fmt.Errorf("%s was dragged to no place", x.Path)
	}
	pull.Pos = *e.Pos
	if x.Min != nil {
		pull.Pos = math.Min(math.Max(pull.Pos, *x.Min), *x.Max)
	}
	return sets(axis, x.drag(pull)), nil
}

// Value is one key of the shot file as it is typed.
type Value struct {
	Path    string   `json:"path"`
	Label   string   `json:"label"`
	Words   string   `json:"words"` // what the key is called
	In      string   `json:"in"`    // what its table is called
	Help    string   `json:"help"`
	Value   string   `json:"value"` // "" for a key that is not there
	Unit    string   `json:"unit"`
	Group   string   `json:"group"` // the table it stands in
	Choices []string `json:"choices,omitempty"`
	Example string   `json:"example,omitempty"` // what it could be, of one that is not there
	File    string   `json:"file,omitempty"`    // under the shot, in which it stands
	Over    *Over    `json:"over,omitempty"`    // what it stands over
	Known   string   `json:"known,omitempty"`   // of a rig: read, guessed, to be measured; "" for its author's word
	Why     string   `json:"why,omitempty"`
}

// values are the keys that a shot has, with all that lies under it.
func values(s shot.Shot) []Value {
	out := lister{list: []Value{}}
	out.table("", reflect.ValueOf(s.Raw()))
	return shotOrder().sorted(plainly(standing(out.list, s.Laid)))
}

type lister struct{ list []Value }

// table lists what is in a table, and in the tables below it.
func (l *lister) table(path string, v reflect.Value) {
	for v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	for _, k := range source.Keys(v.Type()) {
		if v.Type() == reflect.TypeFor[shot.RawRig]() && len(k.Index) > 1 {
			continue // a rig inside the shot is no value of the shot
		}
		l.field(path, k, v.FieldByIndex(k.Index))
	}
}

func (l *lister) field(group string, k source.Key, v reflect.Value) {
	path := k.Key
	if group != "" {
		path = group + "." + k.Key
	}
	switch x := v.Interface().(type) {
	case source.Text:
		l.text(group, path, k.Key, k, x)
	case source.Texts:
		for i, t := range x.Items {
			at, label := path, k.Key
			if !x.Single {
				at, label = fmt.Sprintf("%s[%d]", path, i+1), fmt.Sprintf("%s %d", k.Key, i+1)
			}
			l.text(group, at, label, k, t)
		}
	default:
		l.below(path, v)
	}
}

func (l *lister) text(group, path, label string, k source.Key, t source.Text) {
	if t.Set {
		l.list = append(l.list, Value{
			Path: path, Label: label, Help: k.Help, Value: t.Text, Unit: unitOf(t.Text), Group: group, Choices: k.Choices,
		})
	}
}

// below lists tables by name, in a list, or just one.
func (l *lister) below(path string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Map:
		for _, k := range inOrder(v) {
			l.table(path+"."+k, v.MapIndex(reflect.ValueOf(k)))
		}
	case reflect.Slice:
		for i := range v.Len() {
			l.table(fmt.Sprintf("%s[%d]", path, i+1), v.Index(i))
		}
	case reflect.Struct, reflect.Pointer:
		if v.Type() != reflect.TypeFor[source.Switch]() && v.Type() != reflect.TypeFor[source.Place]() {
			l.table(path, v)
		}
	}
}

// inOrder are the names of tables in the order of the file.
func inOrder(v reflect.Value) []string {
	table := map[string]source.Place{}
	for _, k := range v.MapKeys() {
		table[k.String()], _ = v.MapIndex(k).FieldByName("Place").Interface().(source.Place)
	}
	return source.InOrder(table, func(p source.Place) source.Place { return p })
}

var number = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^[-+]?[0-9][0-9./:]*\s*`)
})

// unitOf is what stands behind a number, or nothing.
func unitOf(text string) string {
	at := number().FindString(text)
	if at == "" {
		return ""
	}
	return strings.TrimSpace(text[len(at):])
}

// absent is a key of an axis that the file does not have.
func absent(group, key string) (Value, bool) {
	for _, k := range move.AllKeys() {
		if k.Key == key && k.Type == reflect.TypeFor[source.Text]() {
			return plainly([]Value{leftOut(group, k)})[0], true
		}
	}
	return Value{}, false
}

func leftOut(group string, k source.Key) Value {
	path := k.Key
	if group != "" {
		path = group + "." + k.Key
	}
	return Value{Path: path, Label: k.Key, Help: k.Help, Group: group, Choices: k.Choices, Example: k.Example, Unit: unitOf(k.Example)}
}
