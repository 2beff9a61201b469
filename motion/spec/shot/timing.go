package shot

import (
	"fmt"
	"strings"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/move"
	"seamrail/motion/music"
)

// timing turns what a shot file says of time into real seconds.
type timing struct{ move.Timing }

// standIn is any clock at all, for a file whose own makes no sense.
func standIn(named *music.Score) timing {
	c := clock.Clock{Capture: exact.Int(24), Playback: exact.Int(24), Retime: exact.Int(1)}
	return timing{move.Timing{Clock: c, Loop: clock.Loop{Clock: c, Screen: 24, Captured: 24}, Music: named}}
}

func (raw RawClock) build(report *source.Report, at source.Place, s *Shot, score func(playback exact.Rat) *music.Score) timing {
	if raw.Place != (source.Place{}) {
		at = raw.Place
	}
	c, ok := raw.clock(report, at)
	known := c.Playback
	if !ok {
		known = exact.Rat{}
	}
	named := score(known)
	forbid := raw.forbid(report)
	s.Quickest = raw.quickest(report)
	if !raw.Loop.Set {
		report.Missing(at, "clock.loop", `"6 s" or loop = "144 frames"`)
		ok = false
	}
	if !ok {
		if _, counts, _ := named.Length(report, raw.Loop, "clock.loop"); raw.Loop.Set && !counts { // its unit can be wrong all the same
			report.Quantity(raw.Loop, "clock.loop", unit.Time, unit.Frames)
		}
		return standIn(named)
	}
	l, ok := readLoop(report, c, raw.Loop, forbid, named)
	if !ok {
		t := standIn(named)
		t.Clock = c
		return t
	}
	s.Clock, s.Loop = c, l
	return timing{move.Timing{Clock: c, Loop: l, Known: true, Music: named}}
}

// quickest tells whether the times of the loop are only the way the moves go
// together, and the rig sets the pace. Nothing is said of it where it is not.
func (raw RawClock) quickest(report *source.Report) bool {
	if !raw.Pace.Set {
		return false
	}
	w, _ := report.Choice(raw.Pace, "clock.pace", "as-timed", "quickest")
	return w == "quickest"
}

func (raw RawClock) forbid(report *source.Report) bool {
	if !raw.Rounding.Set {
		report.Default("clock.rounding", "nearest", "a loop in seconds goes to the nearest whole frame")
		return false
	}
	w, _ := report.Choice(raw.Rounding, "clock.rounding", "nearest", "forbid")
	return w == "forbid"
}

func (raw RawClock) clock(report *source.Report, at source.Place) (clock.Clock, bool) {
	if !raw.Playback.Set {
		report.Missing(at, "clock.playback", `"24"`)
	}
	playback, ok := readRate(report, raw.Playback, "clock.playback", exact.Rat{})
	capture, ok2 := readRate(report, raw.Capture, "clock.capture", playback)
	retime, ok3 := readRetime(report, raw.Retime)
	if !ok || !ok2 || !ok3 || !raw.Playback.Set {
		return clock.Clock{}, false
	}
	c, err := clock.New(capture, playback, retime)
	if err != nil {
		report.Add(raw.Retime.Place(), "clock.retime", "", err.Error(), "")
		return c, false
	}
	if !raw.Capture.Set {
		report.Default("clock.capture", clock.RateText(capture), "as fast as playback")
	}
	if !raw.Retime.Set {
		report.Default("clock.retime", c.Retime.String(), "every captured frame is shown once")
	}
	return c, true
}

func readRate(report *source.Report, t source.Text, path string, fallback exact.Rat) (exact.Rat, bool) {
	if !t.Set {
		return fallback, true
	}
	r, err := clock.ParseRate(t.Text)
	if err != nil {
		report.Fail(t, path, err)
	}
	return r, err == nil
}

// readRetime returns 0 where the file leaves the retime to the rates.
func readRetime(report *source.Report, t source.Text) (exact.Rat, bool) {
	if !t.Set {
		return exact.Rat{}, true
	}
	q, ok := report.Quantity(t, "clock.retime", unit.Number)
	if ok && q.Value.Sign() <= 0 {
		report.Wrong(t, "clock.retime", "must be above 0", "such as \"1/5\", a fifth of real speed")
	}
	return q.Value, ok && q.Value.Sign() > 0
}

func readLoop(report *source.Report, c clock.Clock, t source.Text, forbid bool, named *music.Score) (clock.Loop, bool) {
	if beats, counts, ok := named.Length(report, t, "clock.loop"); counts {
		return loopOf(report, c, t, forbid, named, beats, ok)
	}
	q, ok := report.Quantity(t, "clock.loop", unit.Time, unit.Frames)
	if !ok {
		return clock.Loop{}, false
	}
	var l clock.Loop
	var err error
	switch {
	case q.Dim == unit.Time:
		l, err = c.LoopSeconds(q.Value, forbid)
	case !q.Value.IsInt():
		report.Wrong(t, "clock.loop", "must be a whole number of frames", fmt.Sprintf("%s or %s frames would do", q.Value.Floor(), q.Value.Ceil()))
		return l, false
	default:
		l, err = c.LoopFrames(q.Value.Whole())
	}
	if err != nil {
		report.Fail(t, "clock.loop", err)
	}
	return l, err == nil
}

// loopOf is the loop nearest to so many beats.
func loopOf(report *source.Report, c clock.Clock, t source.Text, forbid bool, named *music.Score, beats music.Length, ok bool) (clock.Loop, bool) {
	if !ok {
		return clock.Loop{}, false
	}
	l, err := c.LoopSeconds(beats.Seconds, forbid)
	if err != nil {
		report.Fail(t, "clock.loop", err)
		return l, false
	}
	l.Asked = fmt.Sprintf("%s, %s", beats.Text, l.Asked)
	named.Loop = beats
	return l, true
}

// handles reads a time on screen as whole timeline frames, part frames up.
func (t timing) handles(report *source.Report, text source.Text, path string) int64 {
	real, ok := t.Real(report, text, path)
	if !ok {
		return 0
	}
	n := t.Frames(real).Ceil()
	if exact.Int(maxHandles).Less(n) {
		report.Wrong(text, path, fmt.Sprintf("must be at most %d frames", maxHandles), "")
		return 0
	}
	return n.Whole()
}

func (t timing) timecode(report *source.Report, drop source.Switch) clock.Timecode {
	if !drop.Set {
		report.Default("take.drop-frame", "false", "every frame has a label")
	}
	tc, err := clock.NewTimecode(t.Clock.Playback, drop.On)
	if err == nil {
		return tc
	}
	if t.Known {
		report.Add(drop.Place(), "take.drop-frame", "", strings.TrimPrefix(err.Error(), "drop-frame "), "")
	}
	tc.Rate, tc.Drop = t.Clock.Playback, false
	return tc
}
