package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/whole"
	"seamrail/motion/cue"
	"seamrail/motion/fault"
	"seamrail/motion/filekind"
	"seamrail/motion/picture"
	"seamrail/motion/plan"
	"seamrail/motion/rig"
	"seamrail/motion/shot"
	"seamrail/motion/sight"
	"seamrail/motion/trajectory"
	"seamrail/motion/verify"
)

// largestFile is how many bytes of a shot or rig file are read, plus one so
// that the reader can tell that there was more: a file that long was not
// written by hand.
const largestFile = 1<<20 + 1

// job is a shot that has been read, planned and checked.
type job struct {
	shot       shot.Shot
	rig        rig.Rig
	plan       *plan.Plan
	trajectory *trajectory.Trajectory
	verdict    verify.Verdict
	fitting    *fitting
	judged     *judged
	picture    *picture.Report // nil in a shot without a camera and a scene
	cues       cue.Sheet
}

// understood is a shot and its rig that have been read already.
type understood struct {
	shot shot.Shot
	rig  rig.Rig
}

// load reads the shot that the flags name and the rig it names.
func (f *ShotFlags) load(in io.Reader) (shot.Shot, rig.Rig, error) {
	if f.known != nil {
		return f.known.shot, f.known.rig, nil
	}
	name, data, err := f.shotText(in)
	if err != nil {
		return shot.Shot{}, rig.Rig{}, err
	}
	s, faults := shot.Understand(name, data, f.overrides(f.axisFinder(name, data)))
	if len(faults) > 0 {
		if err := wrongKind(name, data, filekind.Shot); err != nil {
			return s, rig.Rig{}, err
		}
	}
	r, err := f.joined(&s, faults)
	return s, r, err
}

func (f *ShotFlags) shotText(in io.Reader) (string, []byte, error) {
	switch {
	case f.bare():
		return bareName, []byte(bareShot), nil
	case f.Shot == "":
		return starter.ShotName, starter.Shot(), nil
	case f.Shot == "-":
		data, err := io.ReadAll(io.LimitReader(in, largestFile))
		return "stdin", data, err
	}
	data, err := readFile(f.Shot)
	return f.Shot, data, err
}

// rigFile names the file that describes the rig of a shot: that of the flag, or
// the one the shot names, which is beside it. It is "" for a rig inside the
// shot and for the built-in one.
func (f *ShotFlags) rigFile(s shot.Shot) string {
	switch {
	case f.Rig != "":
		return f.Rig
	case s.Rig != nil || f.Shot == "":
		return ""
	case f.Shot == "-" || filepath.IsAbs(s.RigFile):
		return s.RigFile
	}
	return filepath.Join(filepath.Dir(f.Shot), s.RigFile)
}

// loadRig reads the rig of a shot. A shot that does not say which has none.
func (f *ShotFlags) loadRig(s *shot.Shot) (rig.Rig, fault.List, error) {
	switch {
	case f.Rig != "":
	case s.Rig != nil:
		return *s.Rig, nil, nil
	case s.RigFile == "":
		return rig.Rig{}, nil, nil
	}
	name, data := f.rigFile(*s), starter.Rig()
	var err error
	if name == "" {
		name = starter.RigName
	} else {
		data, err = readFile(name)
	}
	if err != nil {
		return rig.Rig{}, nil, fmt.Errorf("the rig of the shot: %w", err)
	}
	r, defaults, faults := rig.Understand(name, data)
	if len(faults) > 0 {
		if err := wrongKind(name, data, filekind.Rig); err != nil {
			return rig.Rig{}, nil, fmt.Errorf("the rig of the shot: %w", err)
		}
	}
	s.Defaults = append(s.Defaults, defaults...)
	return r, faults, nil
}

// readFile reads at most largestFile bytes and words what goes wrong.
func readFile(name string) ([]byte, error) {
	file, err := whole.Open(name)
	if err != nil {
		return nil, plainRead(name, err)
	}
	defer func() { _ = file.Close() }()
	data, err := io.ReadAll(io.LimitReader(file, largestFile))
	if err != nil {
		return nil, plainRead(name, err)
	}
	return data, nil
}

func plainRead(name string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no file %s; \"seamrail new\" writes one to start from", name)
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return fmt.Errorf("cannot read %s: %w", name, path.Err)
	}
	return err // it is no plain file, and says so
}

// prepare loads, plans and checks.
func (f *ShotFlags) prepare(in io.Reader) (job, error) {
	s, r, err := f.load(in)
	if err != nil {
		return job{}, err
	}
	return planned(s, r, f.ahead)
}

// planned plans a shot on its rig and checks it. What the controller makes of it is
// begun to be worked out meanwhile if it will be asked for.
func planned(s shot.Shot, r rig.Rig, ahead bool) (job, error) {
	p, err := plan.Build(s, r)
	if err != nil {
		return job{}, withCues(err, s, r)
	}
	hands, unheard := cue.New(p, s)
	t, fit := trajectory.New(p), &fitting{}
	if ahead && unheard == nil && len(p.Breaches()) == 0 {
		deadman.Go(func() { _, _ = fit.get(t) }) // which keeps the error too
	}
	seen, err := sight.Examine(t, s)
	if err := atOnce(unheard, err); err != nil {
		return job{}, err
	}
	v := withCollisions(withRamps(verify.Check(t), p), seen)
	return job{s, r, p, t, v, fit, &judged{}, seen, hands}, nil
}

// withRamps adds what the run-up and run-out break to a verdict on the loop,
// so that the head of a forced file tells it too.
func withRamps(v verify.Verdict, p *plan.Plan) verify.Verdict {
	for _, b := range p.Breaches() {
		if b.Phase == "loop" && !v.OK {
			continue
		}
		f := p.Fault(b)
		v.OK = false
		v.Findings = append(v.Findings, verify.Finding{
			Axis: b.Axis, Check: b.Quantity + " in the " + b.Phase,
			Text: strings.Join([]string{b.Quantity, f.Value, f.Bound, f.Where}, " "),
		})
	}
	return v
}

// withCollisions adds what would strike the lens to a verdict.
func withCollisions(v verify.Verdict, seen *picture.Report) verify.Verdict {
	for _, b := range sight.Blocking(seen) {
		v.OK = false
		v.Findings = append(v.Findings, verify.Finding{Check: b.Check, Text: b.Text})
	}
	return v
}

// trouble is a LimitError when the plan must not run as it is, else nil.
func (j job) trouble() error {
	type limit struct{ axis, quantity string }
	broken := map[limit]bool{}
	for _, b := range j.plan.Breaches() {
		broken[limit{b.Axis, b.Quantity}] = true
	}
	if n := len(broken); n > 0 {
		return &LimitError{fmt.Sprintf("the plan breaks %s of the rig", counted(n, "limit"))}
	}
	if n := len(j.verdict.Failed()); n > 0 {
		return &LimitError{fmt.Sprintf("the plan fails %s", counted(n, "check"))}
	}
	return nil
}

// refuse is err, some trouble of the plan, unless forced, with what to do about
// it.
func refuse(err error, force bool) error {
	if err == nil || force {
		return nil
	}
	return &LimitError{err.Error() + ", and nothing was written\n" +
		"see \"seamrail plan\" for what would fit; --force writes it all the same, and the file will say so"}
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
