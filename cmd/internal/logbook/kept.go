package logbook

import (
	"errors"
	"fmt"
	"time"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/plain"
	"seamrail/motion/cue/syncmark"
	"seamrail/motion/edit/selects"
	"seamrail/motion/plan"
)

// Kept reads the takes of a plan to keep from the log of its shot; "" for the one that
// is not named.
func Kept(shotFile string, p *plan.Plan) (selects.Takes, error) {
	log, err := pick(NameOf(shotFile), isKept)
	if err != nil {
		return selects.Takes{}, err
	}
	takes := selects.Of(p, wanted(log, shotFile != "", p.Hash()))
	takes.Unread = log.Torn
	return takes, nil
}

// wanted are the takes of a log that are to be kept. Where no shot file is named
// one log is that of many shots, and only this plan's takes are its own.
func wanted(log takelog.Log, named bool, hash string) []selects.Filmed {
	var out []selects.Filmed
	for _, t := range log.Takes {
		if isKept(t) && (named || t.Begin.Plan == hash) {
			out = append(out, filmedOf(t))
		}
	}
	return out
}

func filmedOf(t takelog.Take) selects.Filmed {
	f := selects.Filmed{
		Number: t.Number, Plan: t.Begin.Plan, Rounds: t.End.Rounds, Held: t.End.Held, Cut: t.Cut, Clip: t.Clip, Notes: t.Notes,
	}
	f.Marks, f.Film = MarksOf(t), FilmOf(t)
	if t.FrameByFrame() {
		f.From = t.Begin.Frames
	}
	for _, w := range t.End.Worst {
		f.Off = append(f.Off, selects.Off{Axis: w.Axis, Unit: w.Unit, Value: w.Value})
	}
	if !t.Cut && t.End.Outcome != drive.Finished.String() {
		f.Ended = t.End.Outcome
	}
	return f
}

// Synced reads the takes of a log in which a sync mark was made.
func Synced(name string) (takelog.Log, error) {
	return pick(name, func(t takelog.Take) bool { return t.Sync.Mark != "" })
}

// MarksOf are the sync marks of a take, nil where the log says nothing of any.
func MarksOf(t takelog.Take) *syncmark.Made {
	s := t.Sync
	if s.Mark == "" {
		return nil
	}
	k := syncmark.Made{First: s.First, Out: s.Out, Second: s.Second, SecondOut: s.SecondOut, Saw: s.Saw, Frame: s.Frame, Last: s.Last}
	if t.End.Executed > 0 && t.End.Planned > 0 {
		k.Stretch, k.StretchOut = t.End.Executed/t.End.Planned, t.End.Uncertainty/t.End.Planned
	}
	return &k
}

// Markable is an error where the log of a shot has no take that could be marked.
func Markable(shotFile string) error {
	_, err := markable(NameOf(shotFile))
	return err
}

func markable(name string) (takelog.Log, error) {
	log, _, err := Read(name)
	switch {
	case err != nil:
		return log, err
	case log.Count == 0:
		return log, fmt.Errorf("there is no take to mark: %s has none", name)
	case log.Real() == 0:
		return log, fmt.Errorf("there is no take to mark: %s has %s alone, of which there is no film", name, plain.Count(log.Virtual, "virtual take"))
	}
	return log, nil
}

// Mark adds marks of takes to the log of a shot: all of them or, where there is no such
// take, none. Those that name no take are of the one given, 0 for the last.
func Mark(shotFile string, take int, marks []takelog.Record, now time.Time) error {
	name := NameOf(shotFile)
	log, err := markable(name)
	if err != nil {
		return err
	}
	if take == 0 {
		take = log.Last()
	}
	for i := range marks {
		if marks[i].Time = now; marks[i].Take == 0 {
			marks[i].Take = take
		}
		if !log.Has(marks[i].Take) {
			return fmt.Errorf("there is no take %d in %s; its takes are %d to %d", marks[i].Take, name, log.First(), log.Next()-1)
		}
	}
	f, w, err := appendTo(name)
	if err != nil {
		return err
	}
	for _, r := range marks {
		if err := w.Add(r); err != nil {
			return errors.Join(err, f.Close())
		}
	}
	if err := f.Close(); err != nil {
		return cannotWrite(name, err)
	}
	return nil
}
