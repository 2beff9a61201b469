package drive

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"seamrail/export/drive/takelog"
	"seamrail/motion/spec/rig"
)

// SyncMark is that of a take: what the rig does, at rest, so that a recording tells
// when it was. Without an output and a twitch it is heard alone.
type SyncMark struct {
	Name   string      // of what makes it
	Output *rig.Output // nil = none does
	Axis   int         // of the plan, that twitches Out and back, mm or degrees
	Out    float64
	Length float64 // s that the output is on, or the axis out
	Back   float64 // s from its beginning to the way back of a twitch
	Before float64 // s from its beginning to the motion
	After  float64 // s from the end of the motion to the second; 0 = none
}

// dark is how long nothing is done before a mark, so that it is seen to begin.
const dark = 500 * time.Millisecond

// due is something that is done at an instant.
type due struct {
	at time.Time
	do func() error
}

// marking is the mark of one pass: when it was made, as far as that is known.
type marking struct {
	first, second span
}

// moments are what is done of a mark that begins at an instant; at takes what is known of
// when it did.
func (e *engine) moments(begins time.Time, at *span) []due {
	m := e.Sync
	end := begins.Add(seconds(m.Length))
	switch {
	case m.Output != nil:
		on := func() (err error) { *at, err = e.lights(*m.Output, m.Length, false); return err }
		off := func() error { return e.goesOut(*m.Output) }
		return []due{{begins, on}, {end, off}}
	case m.Out != 0:
		rest := e.at[m.Axis]
		out := func() error { return e.twitch(rest+m.Out, at) }
		back := func() error { return e.twitch(rest, nil) }
		return []due{{begins, out}, {begins.Add(seconds(m.Back)), back}}
	}
	heard := func() error {
		*at = span{e.now, e.now, e.now.Add(hostGrain)}
		if e.Call != nil {
			e.Call(Beat{Text: "sync mark"})
		}
		return nil
	}
	return []due{{begins, heard}}
}

// twitch takes the axis of the mark gently to a place. Where it began to move is told.
func (e *engine) twitch(to float64, at *span) error {
	err := e.inMotion(func() error { return e.m.glide(e.Sync.Axis, to, false) })
	if err == nil && at != nil {
		*at = e.m.departed()
	}
	return err
}

// onTime does what is to be done, each when it is due, and tells the beats meanwhile.
// Nothing is left on that was not to its end.
func (e *engine) onTime(list []due, b *beats) error {
	slices.SortStableFunc(list, func(a, b due) int { return a.at.Compare(b.at) })
	for _, d := range list {
		err := e.sleep(d.at, b)
		if err == nil {
			err = d.do()
		}
		if err != nil {
			e.darken()
			return err
		}
	}
	return nil
}

// markBefore are the moments of the mark before a motion that begins at an instant.
func (e *engine) markBefore(p *pass, begins time.Time) []due {
	if e.Sync == nil {
		return nil
	}
	at := begins.Add(-seconds(e.Sync.Before))
	say := due{at, func() error { e.Observer.Say("sync mark: " + e.Sync.Name); return nil }}
	list := append([]due{say}, e.moments(at, &p.marks.first)...)
	if r, ok := e.m.(rewinder); ok && e.Sync.Out != 0 {
		list = append(list, due{list[len(list)-1].at, func() error { return r.rewind(p) }})
	}
	return list
}

// rewinder is a machine that has to make a pass ready once more after another move.
type rewinder interface{ rewind(p *pass) error }

// rewind makes the rows of a pass ready once more.
func (p *player) rewind(pass *pass) error { return p.load(pass) }

// markAfter makes the second mark of a pass that has come to its end, and writes down what
// is known of both.
func (e *engine) markAfter(p *pass) error {
	if e.Sync == nil || p.zero.IsZero() {
		return nil
	}
	if err := e.keepMark(p, false); err != nil || e.Sync.After <= 0 || p.executed == 0 {
		return err
	}
	at := later(p.when(p.planned(p.rounds)-p.runUp).Add(seconds(e.Sync.After)), e.now)
	if err := e.onTime(e.moments(at, &p.marks.second), p.beats); err != nil {
		return err
	}
	return e.keepMark(p, true)
}

// keepMark writes down when a mark was made.
func (e *engine) keepMark(p *pass, second bool) error {
	at := p.marks.first
	if second {
		at = p.marks.second
	}
	if at.at.IsZero() {
		return nil
	}
	r := takelog.Record{Kind: takelog.Synced, Take: p.take, Mark: e.Sync.Name, Second: second}
	r.MarkAt = at.at.Sub(p.zero).Seconds()
	if second { // counted from frame 0 of the rig's time, whatever was held between
		r.MarkAt -= p.shift.Seconds()
	}
	open := max(at.at.Sub(at.earliest), at.latest.Sub(at.at))
	r.MarkOut = (open + e.way.jitter()).Seconds() + cmp.Or(p.doubt, maxLate)
	e.Observer.Say(fmt.Sprintf("sync mark: %s at %.4f s from frame 0, give or take %.1f ms", e.Sync.Name, r.MarkAt, r.MarkOut*1000))
	return e.record(r)
}
