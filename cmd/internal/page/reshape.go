package page

import (
	"context"
	"errors"
	"regexp"
	"strings"
	"sync"

	"seamrail/cmd/internal/job"
	"seamrail/motion/base/fault"
	"seamrail/motion/plan/reshape"
)

// What an edit does that is more than a value.
const (
	doAdd     = "add"
	doRemove  = "remove"
	doKind    = "kind"
	doRename  = "key"     // another key for the value
	doMeasure = "measure" // a value that fits, which in the file of a rig is marked as to be measured
)

// bench is a text as what is to be changed in structure.
func (s *desk) bench(text string) (reshape.Bench, error) {
	if b, err := s.tried([]byte(text)); err == nil {
		return b, nil
	}
	b := reshape.Bench{File: s.doc.name, Text: []byte(text), Try: s.tried}
	var faults fault.List
	var err error
	b.Shot, b.Rig, err = s.doc.decode(text)
	if err != nil && !errors.As(err, &faults) {
		return b, err
	}
	return b, nil
}

// tried is the bench of a text that can be planned.
func (s *desk) tried(text []byte) (reshape.Bench, error) {
	p, err := s.plannedTo(context.Background(), string(text), sound)
	if err != nil {
		return reshape.Bench{}, err
	}
	return reshape.Bench{File: s.doc.name, Text: text, Shot: p.Shot, Rig: p.Rig, Plan: p.Plan, Try: s.tried}, nil
}

// reshaped is what an edit makes of a text: more than a value, or a value by itself.
func (s *desk) reshaped(text string, e Edit) (reshape.Done, error) {
	b, err := s.bench(text)
	if err != nil {
		return reshape.Done{}, err
	}
	switch e.Do {
	case doAdd:
		return b.Add(e.Path, reshape.Spot{Frame: e.Frame, Pos: e.Pos})
	case doRemove:
		return b.Remove(e.Path)
	case doKind:
		if e.Value == nil {
			return reshape.Done{}, errors.New("a kind of move has a name")
		}
		return b.Set(e.Path, *e.Value)
	case "":
		if b.Plan == nil { // of a text with faults it is not known what goes with a value
			plain, err := s.doc.set(text, e.Path, *e.Value)
			return reshape.Done{Text: []byte(plain), At: e.Path}, err
		}
		return b.Set(e.Path, *e.Value)
	}
	return reshape.Done{}, errors.New("nothing can be done by the name of " + e.Do)
}

// Thing is something that can be added to the shot, or taken out of it.
type Thing struct {
	Path  string `json:"path"`
	What  string `json:"what"`
	Label string `json:"label"`
	Help  string `json:"help"`
}

func thingOf(x reshape.Item) Thing { return Thing{x.Path, x.What, x.Label, x.Help} }

// Move is a move that an axis can have, in plain words.
type Move struct {
	Name  string `json:"name"`
	Words string `json:"words"`
}

// shapeable tells in a view what can be added, taken out, and done by each axis.
func shapeable(p *job.Job, v *View, quick bool) {
	b := reshape.Bench{Shot: p.Shot, Rig: p.Rig, Plan: p.Plan}
	v.Adds, v.Removes = listOf(b.Adds(), thingOf), listOf(b.Removes(), thingOf)
	for i, a := range v.Axes {
		v.Axes[i].Moves = listOf(b.Moves(a.Name), func(c reshape.Choice) Move { return Move{c.Name, c.Words} })
	}
	if !quick { // a whole plan follows each quick one, and the page keeps what it has until then
		v.Takes = takes(p.Shot)
	}
}

var said = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`"([^"]+)"|\b(-?[0-9]+/[0-9]+)\b`) })

// maxTried is how many values are tried that would perhaps do in place of one.
const maxTried = 4

// instead are values that would do in place of one that was refused: what the faults say
// and the shot can be planned with.
func (s *desk) instead(text string, e Edit, faults []Fault) []Fit {
	out := []Fit{}
	if e.Do != "" || e.Value == nil {
		return out
	}
	tried := map[string]bool{*e.Value: true}
	for _, f := range faults {
		for _, m := range said().FindAllStringSubmatch(f.Fit, -1) {
			value := m[1] + m[2]
			if tried[value] || strings.Contains(value, " = ") || len(tried) > maxTried {
				continue
			}
			tried[value] = true
			if _, err := s.reshaped(text, Edit{Path: e.Path, Value: &value}); err == nil {
				out = append(out, Fit{Text: value, Edits: []Set{{e.Path, value}}})
			}
		}
	}
	return out
}
