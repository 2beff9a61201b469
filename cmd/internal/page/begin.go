package page

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"path"
	"strings"

	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/cmd/internal/textfile"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/source"
	"seamrail/motion/spec/filekind"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// RigFile is a rig of the folder.
type RigFile struct {
	File string `json:"file"`
	Name string `json:"name"`
	Why  string `json:"why"` // it cannot be read, and why
}

func rigOf(file string, data []byte) RigFile {
	r, _, err := rig.Decode(file, data)
	if err != nil {
		return RigFile{file, "", plain.Line(err.Error())}
	}
	return RigFile{file, plain.Line(r.Name), ""}
}

// BuiltIn is a rig that can be written beside a shot, by its controller.
type BuiltIn struct {
	Controller string `json:"controller"`
	Name       string `json:"name"`
}

func builtIn() []BuiltIn {
	return listOf(rig.Kinds(), func(k rig.ControllerKind) BuiltIn {
		r, _, _ := rig.Decode(starter.RigName, starter.RigWith(k)) // the starter's are sound
		return BuiltIn{k.String(), r.Name}
	})
}

// startQuestion is a shot to begin with, or what of it is known so far.
type startQuestion struct {
	Rig        string            `json:"rig"`        // file in the folder; "" for a built-in one
	Controller string            `json:"controller"` // of the built-in one
	NoTable    bool              `json:"noTable"`
	Kind       string            `json:"kind"`    // lantern for the built-in shot
	Answers    map[string]string `json:"answers"` // by the names of the questions; the others are as they stand
	File       string            `json:"file"`
	Fully      bool              `json:"fully"` // the controller is looked at as well, which may take seconds
	Width      int               `json:"width"` // px, of a picture
	From       int64             `json:"from"`
	To         int64             `json:"to"`
	Every      int64             `json:"every"`
}

// lantern is what the page calls the built-in shot among the kinds, and what it shows.
const (
	lantern     = "lantern"
	lanternLine = "the built-in demo: in, a rest, out, while the lantern turns a pane"
)

// rigPlaced is the rig of a new shot: its text, and its file in the folder.
type rigPlaced struct {
	text []byte
	file string
	rig  rig.Rig
	own  bool // it is written with the shot
}

// place reads a rig of the folder, or finds a file for a built-in one: one that holds the
// very same, or a new one. A rig that was measured is no file to write over.
func (s *Server) place(q startQuestion, k kinds.Kind) (p rigPlaced, err error) {
	if q.Rig != "" {
		if p.text, err = s.folder.read(q.Rig); err != nil {
			return p, err
		}
		p.file = q.Rig
		p.rig, _, err = rig.Decode(q.Rig, p.text)
		return p, textfile.Rather(err, q.Rig, p.text, filekind.Rig)
	}
	kind, ok := rig.KindNamed(q.Controller)
	if !ok {
		return p, refused(http.StatusBadRequest, fmt.Sprintf("%q must be one of %s", q.Controller, strings.Join(rig.KindNames(), ", ")))
	}
	p.own, p.text = true, k.BuiltIn(starter.RigWith(kind), !q.NoTable)
	if p.rig, _, err = rig.Decode(starter.RigName, p.text); err != nil {
		return p, err
	}
	p.file, err = s.folder.roomFor(starter.RigName, p.text)
	return p, err
}

// tries is how many names for a file are tried before a person is asked for one.
const tries = 99

// roomFor is a name that is free, or that has the very data already: the wanted one, or one
// with a number behind it.
func (f folder) roomFor(name string, data []byte) (string, error) {
	stem := strings.TrimSuffix(name, shotEnding)
	for i := 1; i <= tries; i++ {
		if i > 1 {
			name = fmt.Sprintf("%s-%d%s", stem, i, shotEnding)
		}
		if !f.has(name) {
			return name, nil
		}
		if there, err := f.read(name); err == nil && data != nil && string(there) == string(data) {
			return name, nil
		}
	}
	return "", fmt.Errorf("all names from %s%s to %s are taken", stem, shotEnding, name)
}

// begun is a new shot before it is written.
type begun struct {
	rigPlaced
	text  []byte
	bench kinds.Bench
	kind  kinds.Kind // without a name for the built-in shot
}

// newShot makes the text of a new shot. What a rig cannot film says so.
func (s *Server) newShot(q startQuestion) (b begun, err error) {
	known := false
	b.kind, known = kinds.Named(q.Kind)
	if !known && q.Kind != lantern {
		return b, refused(http.StatusBadRequest, fmt.Sprintf("%q must be a kind of shot: %s, %s", q.Kind, lantern, strings.Join(kinds.Names(), ", ")))
	}
	if b.rigPlaced, err = s.place(q, b.kind); err != nil {
		return b, err
	}
	if !known {
		if err = suitsLantern(b.rig, q.NoTable); err == nil {
			b.text, err = source.Set(starter.ShotName, starter.Shot(), "rig.file", b.file)
		}
		return b, err
	}
	b.bench = kinds.BenchOf(b.rig, !q.NoTable)
	b.text, err = b.kind.Make(b.bench, q.Answers, b.file, b.own)
	return b, err
}

// suitsLantern is an error where a rig cannot film the built-in shot.
func suitsLantern(r rig.Rig, noTable bool) error {
	rail, slides := r.Axis("rail")
	table, turns := r.Axis("table")
	if r.Controller.Kind.Driven() && !noTable && slides && rail.Kind == rig.Linear && turns && table.Kind == rig.Rotary {
		return nil
	}
	return fmt.Errorf("the lantern needs a rig that is driven, with a rail that is called rail and a turntable that is called table; there-and-back asks for less")
}

// job plans a new shot as it would be planned once it is written.
func (b begun) job(ctx context.Context) (*job.Job, error) {
	x, err := shot.Decode(starter.ShotName, b.text, nil)
	if err != nil {
		return nil, err
	}
	return job.PlanUntil(ctx, x, b.rig)
}

// Asked is a question of a kind.
type Asked struct {
	Name  string `json:"name"`
	Ask   string `json:"ask"`
	Value string `json:"value"` // where nothing is answered
	Least string `json:"least"`
	Most  string `json:"most"`
	Wrong string `json:"wrong"` // with the answer
}

// KindAnswer is what a kind asks on a rig, and what comes of the answers.
type KindAnswer struct {
	Name      string   `json:"name"`
	Line      string   `json:"line"`
	Why       string   `json:"why"` // the rig cannot do it, and why
	Questions []Asked  `json:"questions"`
	File      string   `json:"file"`    // a name that is free
	RigFile   string   `json:"rigFile"` // that the shot will name
	Writes    bool     `json:"writes"`  // it is written too
	Frames    int64    `json:"frames"`  // captured
	Seconds   float64  `json:"seconds"`
	Headline  Headline `json:"headline"`
	Faults    []Fault  `json:"faults"`
}

// kinds tells which kinds there are and which of them a rig can do.
func (s *Server) kinds(q startQuestion) ([]KindAnswer, error) {
	out := []KindAnswer{}
	for _, name := range append([]string{lantern}, kinds.Names()...) {
		a := KindAnswer{Name: name, Line: lanternLine, Questions: []Asked{}, Faults: []Fault{}}
		if k, ok := kinds.Named(name); ok {
			a.Line = k.Line
		}
		q.Kind = name
		if _, err := s.newShot(q); err != nil {
			a.Why = err.Error()
		}
		out = append(out, a)
	}
	return out, nil
}

// kind tells what a kind asks, looks at the answers so far, and plans.
func (s *Server) kind(ctx context.Context, q startQuestion) (*KindAnswer, error) {
	out := &KindAnswer{Name: q.Kind, Line: lanternLine, Questions: []Asked{}, Faults: []Fault{}}
	stem := lantern
	k, known := kinds.Named(q.Kind)
	if known {
		out.Line, stem = k.Line, k.Name
	}
	var err error
	if out.File, err = s.folder.roomFor(stem+shotEnding, nil); err != nil {
		return nil, err
	}
	wrong := false
	if known {
		p, err := s.place(q, k)
		if err != nil {
			return nil, err
		}
		bench := kinds.BenchOf(p.rig, !q.NoTable)
		if err := k.Suits(bench); err != nil {
			out.Why = err.Error()
			return out, nil
		}
		out.Questions = askedOf(k, bench, q.Answers)
		for _, a := range out.Questions {
			wrong = wrong || a.Wrong != ""
		}
	}
	if wrong {
		return out, nil
	}
	b, err := s.newShot(q)
	if err != nil {
		out.Why = err.Error()
		return out, nil
	}
	out.RigFile, out.Writes = b.file, b.own && !s.folder.has(b.file)
	p, err := b.job(ctx)
	if err != nil {
		out.Faults = faultsOf(err)
		return out, ctx.Err()
	}
	h := p.Glanced
	if q.Fully {
		if err := p.Foretell(ctx); err != nil {
			return nil, err
		}
		h = p.Headline()
	}
	out.Frames, out.Seconds, out.Headline = p.Trajectory.Captured(), p.Plan.Loop.OnScreen().Float(), headlineOf(h, verdicts(ctx, p, h, true))
	return out, nil
}

// askedOf are the questions of a kind, each with what is wrong with its answer.
func askedOf(k kinds.Kind, b kinds.Bench, answers kinds.Answers) []Asked {
	before := kinds.Answers{}
	return listOf(k.Questions(b, answers), func(q kinds.Question) Asked {
		a := Asked{Name: q.Name, Ask: q.Ask, Value: q.Default, Least: q.Least, Most: q.Most}
		text, err := k.Check(b, q.Name, cmp.Or(answers[q.Name], q.Default), before)
		if err != nil {
			a.Wrong = err.Error()
		} else {
			before[q.Name] = text
		}
		return a
	})
}

// begin writes a new shot, and a built-in rig beside it where that is missing; both or
// neither, and never over what is there.
func (s *Server) begin(q startQuestion) (*fileAnswer, error) {
	s.folder.writing.Lock()
	defer s.folder.writing.Unlock()
	name, err := s.folder.free(starter.ShotName, q.File)
	if err != nil {
		return nil, err
	}
	b, err := s.newShot(q)
	if err != nil {
		return nil, err
	}
	wrote := b.own && !s.folder.has(b.file)
	if wrote {
		if err := s.folder.begin(b.file, b.rigPlaced.text); err != nil {
			return nil, err
		}
	}
	if err := s.folder.begin(name, b.text); err != nil {
		if wrote {
			err = errors.Join(err, s.folder.remove(b.file))
		}
		return nil, err
	}
	return &fileAnswer{path.Clean(name)}, nil
}

// kindPicture draws frames of a shot that is not begun yet.
func (s *Server) kindPicture(w http.ResponseWriter, r *http.Request) {
	var q startQuestion
	if !ask(w, r, &q) {
		return
	}
	b, err := s.newShot(q)
	if err != nil {
		fail(w, err)
		return
	}
	p, err := b.job(r.Context())
	if err != nil {
		fail(w, err)
		return
	}
	stream(w, r, p, previewQuestion{Width: q.Width, From: q.From, To: q.To, Every: q.Every})
}
