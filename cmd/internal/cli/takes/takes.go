package takes

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/export/drive/takelog"
	"seamrail/export/report"
	"seamrail/export/report/groupreport"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/cue"
)

// Options is what the takes command was asked.
type Options struct {
	Streams command.Streams
	Shot    string
	Take    int // the one to mark; 0 is the last
	Keep    bool
	Drop    bool
	Note    string
	Clips   []string // what the camera calls the recordings of takes
	Rejects []string // takes that are of no use, and why
	Late    string   // how late a hand was
	Early   string   // or how early
	Hand    string   // whose
	Seen    string   // in which frames of its recording the sync marks were seen
	Now     func() time.Time
	Group   string // the one whose passes are held against each other, or of the take that is logged
	Log     bool   // log a take that was not driven from here
	Filmed  Filmed // how it was
	Told    command.Told
}

// NewCmdTakes returns the takes command. A nil run means the real one.
func NewCmdTakes(s command.Streams, run func(*Options) error) *cobra.Command {
	o := &Options{Streams: s, Now: time.Now}
	c := command.OfFile(&cobra.Command{
		Use:   "takes [SHOT]",
		Short: "List the takes of a shot, mark the keeper, say which clip it is",
		Long: `List the takes that "seamrail drive" has logged of a shot: when, how many rounds,
how long the motion was planned to take and took, the worst deviation that was
seen, how it ended. The log lies beside the shot and ends in ` + logbook.Ending + `.
Virtual takes, on a rig made of software, stand apart, with numbers of their own:
nothing was filmed, so they are not marked, and go into no hand-off.

With --group the passes of that group are held against each other: where they
began, how far from the plan they were reported, and how long they took.

--log logs a take that was filmed as the shot has it now and that "seamrail drive" did
not drive: of a rig that is set and started by hand, or of a program that was sent by
other means. It has the next number, and can be marked in the same breath. --rounds
says how many were filmed if not as many as the shot has, --took what a stopwatch said
from setting out to rest, --group and --pass which pass of which group it was.

With --keep, --drop, --reject, --clip, --note, --late or --early a take is marked,
the last one unless --take names another, and then listed. --clip and --reject may
name the take themselves, as in --clip 3=A001C004, and be given several times.

--clip is what the camera calls the recording: the name of its file, or the card and
the number of the clip. The table of kept takes, timelines and lists of edits then
name it. "seamrail footage --keep" says so of a film that it has looked through, with
where its frame 0 and its seam are. --reject says why a take is of no use, and takes the mark of a keeper away;
--keep and --drop take the rejection back.

--late and --early tell how far from its moment a hand was seen to be, in real
seconds or in frames of the finished picture. "seamrail cues" and "seamrail
drive" then tell that hand so much sooner, or later, as it usually is off.

--mark-seen tells in which frames of the recording the sync marks of a take were first
seen. What is known of frame 0 by them is said, and goes into the hand-off.`,
		Example: `  seamrail takes lantern.toml
  seamrail takes lantern.toml --keep --note "steam just right"
  seamrail takes lantern.toml --clip A001C004.mov --reject 1="the glass rang"
  seamrail takes lantern.toml --take 2 --drop
  seamrail takes lantern.toml --json
  seamrail takes lantern.toml --take 3 --mark-seen "121,2561"
  seamrail takes lantern.toml --log --clip A001C005.mov --took "36.4 s"
  seamrail takes lantern.toml --late "3 frames" --hand left`,
	}, "one shot file", &o.Shot, o, run, takesRun)
	c.Flags().IntVar(&o.Take, "take", 0, "mark take `N`; without it the last")
	c.Flags().BoolVar(&o.Keep, "keep", false, "mark it as one to keep")
	c.Flags().BoolVar(&o.Drop, "drop", false, "take that mark, or a rejection, away")
	c.Flags().StringArrayVar(&o.Rejects, "reject", nil, "say in `WORDS` why it is of no use, or N=WORDS of take N")
	c.Flags().StringArrayVar(&o.Clips, "clip", nil, "what the camera calls the recording, a `NAME`, or N=NAME of take N")
	c.Flags().StringVar(&o.Note, "note", "", "add a note in `WORDS`")
	c.Flags().StringVar(&o.Late, "late", "", "a hand was late by `TIME`, such as \"0.08 s\" or \"3 frames\"")
	c.Flags().StringVar(&o.Early, "early", "", "a hand was early by `TIME`")
	c.Flags().StringVar(&o.Hand, "hand", "", "`NAME` of the hand, where the shot has several")
	c.Flags().StringVar(&o.Seen, "mark-seen", "", "sync marks show first in these `FRAMES` of the recording, from 0: \"121\", or \"121,2561\" with the one after the take")
	c.Flags().StringVar(&o.Group, "group", "", "tell how well the passes of `GROUP` match; --json is then "+groupreport.Schema+"; with --log the take is one of it")
	c.Flags().BoolVar(&o.Log, "log", false, "log a take that was filmed, and not driven from here")
	o.Filmed.register(c.Flags())
	o.Told.Register(c, takelog.Schema)
	c.MarkFlagsMutuallyExclusive("keep", "drop", "reject")
	c.MarkFlagsMutuallyExclusive("late", "early")
	c.MarkFlagsMutuallyExclusive("log", "take")
	c.MarkFlagsMutuallyExclusive("log", "mark-seen")
	return c
}

func takesRun(o *Options) error {
	if err := errors.Join(o.unlogged(), logbook.Belongs(o.Shot)); err != nil {
		return err
	}
	marks, err := o.marks()
	if err != nil {
		return err
	}
	seen, err := o.seen()
	if err != nil {
		return err
	}
	marks = append(marks, seen...)
	if o.Log {
		if err := o.log(marks); err != nil {
			return err
		}
	}
	if len(marks) == 0 && o.Take != 0 {
		return exit.Misused("--take says which take to mark; add --keep, --drop, --reject, --clip, --note, --late, --early or --mark-seen")
	}
	if len(marks) > 0 {
		if err := logbook.Mark(o.Shot, o.Take, marks, o.Now()); err != nil {
			return err
		}
	}
	if o.Group != "" && !o.Log {
		return o.group()
	}
	if err := o.whereFrame0(len(seen) > 0); err != nil {
		return err
	}
	name := logbook.NameOf(o.Shot)
	if !o.Told.JSON {
		return printTakes(o.Streams, name)
	}
	facts, err := factsOf(name)
	if err != nil {
		return err
	}
	return command.Deliver(o.Streams, command.Stdout, func(w io.Writer) error { return report.JSON(w, facts) })
}

// marks are the records that the flags ask for, without time and mostly without take.
func (o *Options) marks() ([]takelog.Record, error) {
	var out []takelog.Record
	if o.Keep || o.Drop {
		out = append(out, takelog.Record{Kind: takelog.Keeper, Keep: o.Keep})
	}
	var faults []error
	for _, text := range o.Rejects {
		take, why := ofTake(text)
		why, err := takelog.Words("--reject", why)
		faults = append(faults, err)
		out = append(out, takelog.Record{Kind: takelog.Refused, Take: take, Why: why})
	}
	for _, text := range o.Clips {
		take, clip := ofTake(text)
		clip, err := takelog.ClipName(clip)
		faults = append(faults, err)
		out = append(out, takelog.Record{Kind: takelog.Clipped, Take: take, Clip: clip})
	}
	if o.Note != "" {
		out = append(out, takelog.Record{Kind: takelog.Noted, Note: plain.Text(o.Note)})
	}
	timed, err := o.timed()
	return append(out, timed...), errors.Join(append(faults, err)...)
}

// ofTake cuts the number of a take off a text, as of "3=A001C004"; 0 where it names none.
func ofTake(text string) (take int, rest string) {
	before, after, ok := strings.Cut(text, "=")
	if n, err := strconv.Atoi(strings.TrimSpace(before)); ok && err == nil && n > 0 {
		return n, after
	}
	return 0, text
}

// maxLate is how far off a hand may be, in real s: beyond that it missed.
var maxLate = exact.Int(10)

// timed is the record of a hand that was late or early, if one was.
func (o *Options) timed() ([]takelog.Record, error) {
	text, flag := o.Late, "--late"
	if o.Early != "" {
		text, flag = o.Early, "--early"
	}
	if text == "" {
		if o.Hand != "" {
			return nil, exit.Misused("--hand says whose hand was late; add --late or --early")
		}
		return nil, nil
	}
	by, err := o.realTime(text)
	switch {
	case err != nil:
		return nil, fmt.Errorf("%s: %w", flag, err)
	case maxLate.Less(by.Abs()):
		return nil, fmt.Errorf("%s %q must be within %s s of real time", flag, text, maxLate)
	case flag == "--early":
		by = by.Neg()
	}
	return []takelog.Record{{Kind: takelog.Timed, Hand: o.Hand, Late: by.Float()}}, nil
}

// realTime reads real seconds, or frames of the finished picture, for which it
// takes the shot's clock.
func (o *Options) realTime(text string) (exact.Rat, error) {
	q, err := unit.ParseAs(text, unit.Time, unit.Frames)
	if err != nil || q.Dim == unit.Time {
		return q.Value, err
	}
	if o.Shot == "-" {
		return q.Value, exit.Misused("frames of a shot from standard input are not known; give seconds")
	}
	s, _, err := job.Source{Shot: o.Shot}.Load(nil)
	if err != nil {
		return q.Value, fmt.Errorf("a frame is as long as the shot says: %w", err)
	}
	return q.Value.Quo(s.Clock.Playback).Mul(s.Clock.Retime), nil
}

// lateTexts say how late each hand was.
func lateTexts(late map[string]float64) []string {
	var out []string
	for _, hand := range slices.Sorted(maps.Keys(late)) {
		who, side, by := "hand", "late", late[hand]
		if hand != "" {
			who = cue.Called(hand)
		}
		if by < 0 {
			side = "early"
		}
		out = append(out, fmt.Sprintf("%s %.3f s %s", who, math.Abs(by), side))
	}
	return out
}
