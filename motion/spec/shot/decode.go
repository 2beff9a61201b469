package shot

import (
	"fmt"
	"slices"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/music"
)

// Decode reads a shot file, with over in the place of what it says. The error
// is a fault.List of everything wrong, sorted, each with its line and column
// or the flag it came from. What the shot names beside itself is read by beside; without
// it nothing can be named.
func Decode(file string, data []byte, over []source.Override, beside ...source.Beside) (Shot, error) {
	s, faults := Understand(file, data, over, beside...)
	if err := faults.Err(); err != nil {
		return Shot{}, err
	}
	return s, nil
}

// Understand is Decode of a shot that may be wrong in places: what is sound of it
// can be looked at further, so that a fault hides no other. Moves, stands and
// cues that are not sound say so, and a clock that is not is 0.
func Understand(file string, data []byte, over []source.Override, beside ...source.Beside) (Shot, fault.List) {
	report := &source.Report{File: file}
	doc, ok := source.Parse("", data, report)
	if !ok {
		return Shot{File: file}, report.Faults
	}
	doc.Put(over, report)
	return Of(doc, report, over, source.First(beside), func(more []source.Override) (Shot, error) {
		return Decode(file, data, slices.Concat(over, more), beside...)
	})
}

// Of is Understand of a document that has been read, laid over others perhaps. The
// report has what is wrong with it so far; over are the values that have been put into
// it, and again understands it with more.
func Of(doc *source.Doc, report *source.Report, over []source.Override, beside source.Beside, again func([]source.Override) (Shot, error)) (Shot, fault.List) {
	var raw Raw
	if !doc.Bind(&raw, report) {
		return Shot{File: report.File}, report.Faults
	}
	if !doc.Laid() {
		raw.unread(report)
	}
	left := raw.leave(over)
	s := raw.build(report, left, beside)
	left.finish(&s)
	s.File, s.Defaults, s.again, s.doc = report.File, report.Defaults, again, doc
	return s, report.Faults
}

// unread refuses the names of files where nobody has read them.
func (raw Raw) unread(report *source.Report) {
	refuse := func(t source.Text, path string) {
		if t.Set {
			report.Wrong(t, path, "names a file, and no files are read here", "give the shot as a file of its own")
		}
	}
	for _, t := range raw.Setup.Items {
		refuse(t, "setup")
	}
	if raw.Camera != nil {
		refuse(raw.Camera.Use, "camera.use")
		refuse(raw.Camera.Lens, "camera.lens")
	}
	if raw.Scene != nil {
		for i, l := range raw.Scene.Lamps {
			refuse(l.Use, fmt.Sprintf("scene.lamps[%d].use", i+1))
		}
	}
}

func (raw Raw) build(report *source.Report, left *leaving, beside source.Beside) Shot {
	s := Shot{Title: raw.Shot.Text}
	if !raw.Shot.Set {
		s.Title = "untitled shot"
		report.Default("shot", s.Title, "the shot has no name")
	}
	s.ByFrame = raw.byFrame(report)
	t := raw.Clock.build(report, raw.Place, &s, func(playback exact.Rat) *music.Score {
		return &music.Score{Music: raw.Music.Build(report, "music.", playback, beside)}
	})
	raw.Take.build(report, t, &s)
	raw.rig(report, &s)
	left.axes(report, raw)
	for _, name := range source.InOrder(raw.Axis, func(a move.Raw) source.Place { return a.Place }) {
		s.Axes = append(s.Axes, build(report, name, raw.Axis[name], t))
	}
	raw.look(report, t, &s)
	raw.unhurried(report, s)
	s.Spins = raw.spins(report, &s)
	s.Cues = raw.cues(report, t, s, left)
	s.SyncMark = raw.syncMark(report, t)
	raw.Clock.others(report, t, &s)
	s.Music = *t.Music
	if p := raw.Clock.Pace; s.Quickest && (len(s.Music.Spots) > 0 || s.Music.Loop.Beats.Sign() > 0) {
		report.Wrong(p, "clock.pace", "does not keep to times, and some are named by the music", "leave pace out")
	}
	return s
}

func (raw Raw) rig(report *source.Report, s *Shot) {
	inline := raw.Rig != nil && (raw.Rig.Raw.Rig.Set || len(raw.Rig.Axis) > 0)
	switch {
	case raw.Rig == nil:
		report.Add(raw.Place, "rig", "", "is missing", `name its file, such as file = "bench-rail.toml" under [rig]`)
	case raw.Rig.File.Set && !(inline && raw.Rig.File.File != ""): // a rig of the shot's own is taken before one of a set-up
		s.RigFile, s.RigFrom = raw.Rig.File.Written(), raw.Rig.File.File
		if s.RigFile == "" {
			report.Wrong(raw.Rig.File, "rig.file", "must be the name of a file", `such as "bench-rail.toml"`)
		}
		if inline && raw.Rig.File.Origin == "" {
			report.Wrong(raw.Rig.File, "rig.file", "is given, and so is the rig itself", "keep one of the two")
		}
	case len(raw.Rig.Axis) == 0:
		report.Missing(raw.Rig.Place, "rig.file", `"bench-rail.toml"`)
	default:
		r := raw.Rig.Build(report, "rig.")
		s.Rig = &r
	}
}

const (
	maxRounds     = 1_000_000
	defaultRounds = 3
	// maxHandles is a minute of the fastest timeline or so.
	maxHandles = 10_000
)

func (raw RawTake) build(report *source.Report, t timing, s *Shot) {
	s.Rounds = defaultRounds
	if !raw.Rounds.Set {
		report.Default("take.rounds", "3", "one to settle, one to keep, one to spare")
	} else if n, ok := report.Whole(raw.Rounds, "take.rounds", 1, maxRounds); ok {
		s.Rounds = int(n)
	}
	if !raw.Handles.Set {
		report.Default("take.handles", "0 frames", "a loop needs none")
	} else {
		s.Handles = t.handles(report, raw.Handles, "take.handles")
	}
	s.Timecode = t.timecode(report, raw.DropFrame)
	if !raw.Timecode.Set {
		report.Default("take.timecode", s.Timecode.Label(0), "labels begin at nothing")
	} else if n, err := s.Timecode.Parse(raw.Timecode.Text); err != nil {
		report.Fail(raw.Timecode, "take.timecode", err)
	} else {
		s.Start = n
	}
}

var half = exact.New(1, 2)
