package logbook

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/base/list"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/filmed"
)

// FilmOf is the film of a take, nil where nobody has looked through one.
func FilmOf(t takelog.Take) *filmed.Film {
	f := t.Film
	if f == nil {
		return nil
	}
	var hands []string
	for _, a := range f.Actions {
		if a.Round == f.Round {
			hands = append(hands, a.Cue+" "+ActionWords(a))
		}
	}
	return &filmed.Film{
		Hands: hands, File: f.File, Rate: f.Rate, Timecode: f.Timecode, Frames: f.Frames, Zero: f.Zero, Sure: f.Sure, By: filmed.By(f.By), Trusted: f.Trusted,
		Late: f.Late, Longer: f.Longer, Round: f.Round, In: f.In, Out: f.Out, Verdict: f.Verdict, Apart: f.Apart, Still: f.Still,
		Loop: filmed.Loop{From: f.From, Frames: f.Length, Unseen: f.Unseen, AsGood: f.AsGood},
	}
}

// ActionWords say how a hand was: "late by 4 frames".
func ActionWords(a takelog.Action) string {
	if off := max(a.Off, -a.Off); off > 0 {
		return a.How + " by " + plain.Count(off, "frame")
	}
	return a.How
}

// RecordOf is the record that keeps a film as a take, and how it was found to be that.
func RecordOf(take int, f filmed.Film, by string, hands []takelog.Action) takelog.Record {
	return takelog.Record{Kind: takelog.Filmed, Take: take, Film: &takelog.Film{
		File: f.File, Rate: f.Rate, Timecode: f.Timecode, Frames: f.Frames, Zero: grain(f.Zero), Sure: grain(f.Sure), By: string(f.By), Trusted: f.Trusted,
		Late: grain(f.Late), Longer: grain(f.Longer), Round: f.Round, In: f.In, Out: f.Out, TakeBy: by, Verdict: f.Verdict, Apart: grain(f.Apart), Still: f.Still,
		From: f.Loop.From, Length: f.Loop.Frames, Unseen: f.Loop.Unseen, AsGood: f.Loop.AsGood, Actions: hands,
	}}
}

// grain is a number as the log has it: finer than a picture tells.
func grain(v float64) float64 { return math.Round(v*1e5) / 1e5 }

// How a film was found to be a take.
const (
	ByNumber = "number"
	ByClip   = "clip"
	ByTime   = "time"
)

// Filmable are the takes of a shot of which a film could be kept.
type Filmable struct {
	name  string
	hash  string
	takes []takelog.Take // all of them
}

// Keepable reads the log of a shot of which films are to be kept, by a plan. The error says that
// there is none, that it has no take, or that it cannot be written to.
func Keepable(shotFile, hash string) (Filmable, error) {
	f := Filmable{name: NameOf(shotFile), hash: hash}
	if err := Markable(shotFile); err != nil {
		return f, err
	}
	_, _, err := Walk(f.name, func(t takelog.Take) error {
		if !t.Virtual() {
			f.takes = append(f.takes, t)
		}
		return nil
	})
	if err != nil {
		return f, err
	}
	to, _, err := appendTo(f.name)
	if err != nil {
		return f, err
	}
	return f, to.Close()
}

// Take is a take of that number, of which a film is to be kept; the error says why it cannot be.
// Of two of one number it is the later.
func (f Filmable) Take(number int, film string) (takelog.Take, error) {
	var t takelog.Take
	for _, one := range f.takes {
		if one.Number == number {
			t = one
		}
	}
	switch {
	case t.Number == 0:
		return t, fmt.Errorf("there is no take %d in %s; its takes are %s", number, f.name, f.numbers())
	case t.Begin.Plan != f.hash:
		return t, fmt.Errorf("take %d in %s was filmed by another plan, %s, and this one is %s: what %s shows does not follow from it", number, f.name, t.Begin.Plan, f.hash, film)
	case t.FrameByFrame():
		return t, fmt.Errorf("take %d in %s was taken frame by frame: its frames are its files, and nothing of it is to be found", number, f.name)
	}
	if why := unfit(t); why != "" {
		return t, fmt.Errorf("take %d in %s cannot be kept: %s", number, f.name, why)
	}
	return t, f.twice(t, film)
}

// Fit are the numbers of the takes as which a film can be kept, the last first.
func (f Filmable) Fit(film string) (out []int) {
	for _, t := range f.takes {
		if _, err := f.Take(t.Number, film); err == nil && !slices.Contains(out, t.Number) {
			out = append([]int{t.Number}, out...)
		}
	}
	return out
}

// unfit says why nothing of a take can be kept, or "".
func unfit(t takelog.Take) string {
	switch {
	case t.Cut:
		return "nothing is told of its end"
	case t.End.Outcome != drive.Finished.String():
		return fmt.Sprintf("it ended as %q", t.End.Outcome)
	case t.End.Held:
		return "it was stopped and went on, out of step with the frames"
	case t.End.Rounds < 1:
		return "it has no whole round"
	}
	return ""
}

// twice is an error where the take is kept with another film, or the film with another take. What
// was dropped is free again.
func (f Filmable) twice(t takelog.Take, film string) error {
	if t.Keep && t.Film != nil && t.Film.File != film {
		return fmt.Errorf("take %d is kept as %s already; \"seamrail takes --take %d --drop\" takes that back", t.Number, t.Film.File, t.Number)
	}
	for _, other := range f.takes {
		if other.Number != t.Number && other.Keep && other.Clip == film {
			return fmt.Errorf("%s is kept as take %d already; \"seamrail takes --take %d --drop\" takes that back", film, other.Number, other.Number)
		}
	}
	return nil
}

// Called is the take whose clip is called so, where there is one.
func (f Filmable) Called(film string) (number int, ok bool) {
	for _, t := range f.takes {
		if t.Clip == film && t.Begin.Plan == f.hash {
			number, ok = t.Number, true
		}
	}
	return number, ok
}

// Shown is what a film shows, for the clocks to be compared.
type Shown struct {
	Wrote  time.Time // when it was last written: as the camera stopped
	Frames int64
	Zero   float64 // the frame at which the plan begins
	PerSec float64 // frames a second of real time
	Round  int64   // frames of a round of the plan
	RunUp  float64 // s from the beginning of the motion to frame 0
}

// How far off a camera's clock may be that somebody sets by hand at the beginning of a night, and
// how much further every other take must be for that one to be the only one: common practice is
// to set it to the minute.
const (
	clockApart  = time.Minute
	othersApart = 3 * time.Minute
)

// At is the one take that a film can be, by the time at which it was written and by its length; the
// error says that there is none or more than one, and what there is.
func (f Filmable) At(film string, s Shown) (int, error) {
	before := time.Duration((float64(s.Frames) - s.Zero) / s.PerSec * float64(time.Second))
	zero := s.Wrote.Add(-before)
	var fits, near []int
	for _, t := range f.takes {
		if t.Begin.ByHand || t.Cut || t.Keep && t.Film != nil && t.Film.File != film {
			continue // when it began is not in the log, or it is another film
		}
		apart := zero.Sub(t.Begin.Time.Add(time.Duration(s.RunUp * float64(time.Second)))).Abs()
		whole := s.Zero >= -halfFrame && float64(s.Frames) >= s.Zero+float64(t.End.Rounds*s.Round)-halfFrame
		switch {
		case apart <= clockApart && whole && t.Begin.Plan == f.hash && unfit(t) == "":
			fits = append(fits, t.Number)
		case apart <= othersApart:
			near = append(near, t.Number)
		}
	}
	if len(fits) == 1 && len(near) == 0 {
		return fits[0], nil
	}
	why := "by its time and its length it is none of them"
	if len(fits)+len(near) > 0 {
		why = fmt.Sprintf("by its time and its length it may be take %s", orOf(append(fits, near...)))
	}
	return 0, fmt.Errorf("which take %s is, is not known: %s; say it, as in --keep %s=%d. The takes in %s are %s", film, why, film, f.last(), f.name, f.numbers())
}

// halfFrame is what a film may lack of a take: nobody sees the half of a frame.
const halfFrame = 0.5

func (f Filmable) last() int { return f.takes[len(f.takes)-1].Number }

func orOf(numbers []int) string {
	return strings.Join(list.Map(numbers, func(n int) string { return fmt.Sprint(n) }), " or ")
}

// mostNumbers is how many takes a sentence lists.
const mostNumbers = 12

// numbers are those of the takes.
func (f Filmable) numbers() string {
	if n := len(f.takes); n > mostNumbers {
		return fmt.Sprintf("%s, %d to %d", plain.Count(n, "take"), f.takes[0].Number, f.last())
	}
	return strings.Join(list.Map(f.takes, func(t takelog.Take) string { return fmt.Sprint(t.Number) }), ", ")
}
