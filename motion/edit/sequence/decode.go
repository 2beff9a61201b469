package sequence

import (
	"fmt"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/music"
)

const (
	// maxShots bounds the shots of a clip: more are cut by an editor, and the
	// search for an order takes the cube of it.
	maxShots = 100
	// maxTakes bounds the takes wanted of a shot: beyond it nobody counts.
	maxTakes = 1000
	// defaultTakes is one to learn from, one to keep, one to spare.
	defaultTakes = 3
)

// Decode reads a sequence file, with over in the place of what it says. The error
// is a fault.List of everything wrong with it, sorted, each with its line and
// column or the flag it came from. What it names beside itself is read by beside.
func Decode(file string, data []byte, over []source.Override, beside ...source.Beside) (Sequence, error) {
	report := &source.Report{File: file}
	var raw Raw
	if !source.Read(data, over, &raw, report) {
		return Sequence{}, report.Faults.Err()
	}
	s := raw.build(report, source.First(beside))
	if err := report.Faults.Err(); err != nil {
		return Sequence{}, err
	}
	s.File, s.Defaults, s.Setup = file, report.Defaults, raw.Setup.In(file)
	return s, nil
}

func (raw Raw) build(report *source.Report, beside source.Beside) Sequence {
	s := Sequence{Title: raw.Sequence.Text, timecode: raw.Timecode, dropFrame: raw.DropFrame, music: raw.Music, beside: beside}
	if !raw.Sequence.Set {
		s.Title = "untitled sequence"
		report.Default("sequence", s.Title, "the sequence has no name")
	}
	if raw.Playback.Set {
		rate, err := clock.ParseRate(raw.Playback.Text)
		if err != nil {
			report.Fail(raw.Playback, "playback", err)
		}
		s.Playback = rate
	}
	s.Card, s.Day = raw.Card.build(report), raw.Day.build(report)
	takes, named := raw.takes(report), raw.Music.Build(report, "music.", s.Playback, beside)
	switch n := len(raw.Shot); {
	case n == 0:
		report.Add(raw.Place, "shot", "", "is missing", "a sequence has at least one [[shot]]")
	case n > maxShots:
		report.Add(raw.Shot[maxShots].Place, "shot", fmt.Sprint(n), fmt.Sprintf("must be at most %d", maxShots), "cut it in two")
	}
	for i, r := range raw.Shot {
		s.Entries = append(s.Entries, r.build(report, fmt.Sprintf("shot[%d].", i+1), takes, named))
	}
	return s
}

func (raw Raw) takes(report *source.Report) int {
	if !raw.Takes.Set {
		report.Default("takes", fmt.Sprint(defaultTakes), "one to learn from, one to keep, one to spare")
		return defaultTakes
	}
	n, _ := report.Whole(raw.Takes, "takes", 1, maxTakes)
	return int(n)
}

func (r RawShot) build(report *source.Report, path string, takes int, named music.Music) Entry {
	e := Entry{File: r.File.Written(), Takes: takes, Rounds: 1, Rig: r.Rig.Text, Light: r.Light.Text,
		From: unit.Quantity{Dim: unit.Frames}, file: r.File, from: r.From, length: r.Length, until: r.Until, place: r.Place, path: path}
	switch {
	case !r.File.Set:
		report.Missing(r.Place, path+"file", `"lantern.toml"`)
	case !inside(r.File.Written()):
		report.Wrong(r.File, path+"file", "must be a file in the folder of the sequence or below it",
			`such as "lantern.toml" or "shots/lantern.toml"`)
	}
	if r.From.Set {
		e.From = onScreen(report, r.From, path+"from", false)
	}
	r.lasts(report, &e, named)
	if r.Takes.Set {
		n, _ := report.Whole(r.Takes, path+"takes", 1, maxTakes)
		e.Takes = int(n)
	}
	e.Use, e.Recording = r.RawUse.build(report, path), r.RawRecording.build(report, path)
	return e
}

// lasts reads how long a shot is seen.
func (r RawShot) lasts(report *source.Report, e *Entry, named music.Music) {
	path := e.path
	e.lasts = r.lastsBy()
	switch {
	case r.Until.Set && (r.Length.Set || r.Rounds.Set):
		report.Wrong(r.Until, path+"until", "is given, and so is length or rounds", "keep one of them")
	case r.Until.Set && music.Named(r.Until.Text):
		named.Place(report, r.Until, path+"until") // for its faults: the rate may be known to the shots alone
	case r.Until.Set:
		e.Until = onScreen(report, r.Until, path+"until", true)
	case r.Length.Set && r.Rounds.Set:
		report.Wrong(r.Rounds, path+"rounds", "is given, and so is length", "keep one of the two")
	case r.Length.Set:
		var counts bool
		if e.Beats, counts, _ = named.Length(report, r.Length, path+"length"); !counts {
			e.Length = onScreen(report, r.Length, path+"length", true)
		}
	case r.Rounds.Set:
		e.Rounds, _ = report.Whole(r.Rounds, path+"rounds", 1, clock.MaxFrames)
	default:
		report.Default(path+"length", "1 round", "all of its loop, once")
	}
}

// lastsBy is the key that says how long a shot is seen, "" where none does.
func (r RawShot) lastsBy() string {
	switch {
	case r.Until.Set:
		return "until"
	case r.Length.Set:
		return "length"
	case r.Rounds.Set:
		return "rounds"
	}
	return ""
}

// onScreen reads a time or a count of frames: 0 or more, or above it.
func onScreen(report *source.Report, t source.Text, path string, above bool) unit.Quantity {
	q, ok := report.Quantity(t, path, unit.Time, unit.Frames)
	switch {
	case !ok:
	case q.Dim == unit.Frames && !q.Value.IsInt():
		report.Wrong(t, path, "must be a whole number of frames", fmt.Sprintf("%s or %s frames would do", q.Value.Floor(), q.Value.Ceil()))
	case q.Value.Sign() < 0 || above && q.Value.Sign() == 0:
		bound := "must be 0 or more"
		if above {
			bound = "must be above 0"
		}
		report.Wrong(t, path, bound, `such as "48 frames" or "2 s"`)
	}
	return q
}
