package sequence

import (
	"math"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/edit/mediasize"
	"seamrail/motion/law"
	"seamrail/motion/plan/trajectory"
)

// Recording is how a shot is recorded, where that is not as the card has it.
type Recording struct {
	Records Kind
	Rate    exact.Rat // bytes a real second; 0 = as the card has it
	Frame   exact.Rat // bytes a frame; 0 = as the card has it

	records, rate, frame source.Text
}

// Kind is what a camera makes of a shot.
type Kind string

// The kinds; "" is chosen by the capture rate.
const (
	Filmed Kind = "film"
	Stills Kind = "stills"
)

func (r RawRecording) build(report *source.Report, path string) Recording {
	out := Recording{
		Rate:  measured(report, r.Bitrate, path+"bitrate", mediasize.ParseRate),
		Frame: measured(report, r.FrameSize, path+"frame-size", mediasize.ParseSize),

		records: r.Records, rate: r.Bitrate, frame: r.FrameSize,
	}
	if r.Records.Set {
		word, _ := report.Choice(r.Records, path+"records", string(Filmed), string(Stills))
		out.Records = Kind(word)
	}
	return out
}

// with is what two entries say of one recording, whichever of them says it. Where they
// differ, that is told of the second, at path.
func (r Recording) with(report *source.Report, other Recording, path string) Recording {
	differs := func(t source.Text, key string) {
		report.Wrong(t, path+key, "differs from what a [[shot]] before it says of the same recording", "say it once, or the same")
	}
	switch {
	case r.Records == "":
		r.Records = other.Records
	case other.Records != "" && other.Records != r.Records:
		differs(other.records, "records")
	}
	for _, x := range []struct {
		to    *exact.Rat
		other exact.Rat
		text  source.Text
		key   string
	}{{&r.Rate, other.Rate, other.rate, "bitrate"}, {&r.Frame, other.Frame, other.frame, "frame-size"}} {
		switch {
		case x.to.Sign() == 0:
			*x.to = x.other
		case x.other.Sign() != 0 && !x.other.Equal(*x.to):
			differs(x.text, x.key)
		}
	}
	return r
}

// minFilm is the slowest rate, in frames a second, that cameras film at; slower ones
// are stills, taken by an interval timer (common practice).
var minFilm = exact.Int(10)

// stills tells whether a shot of a capture rate is taken as stills.
func (r Recording) stills(rate exact.Rat) bool {
	if r.Records != "" {
		return r.Records == Stills
	}
	return rate.Less(minFilm)
}

// of is the card as it is for a shot.
func (r Recording) of(c Card) Card {
	if r.Rate.Sign() > 0 {
		c.Rate = r.Rate
	}
	if r.Frame.Sign() > 0 {
		c.Frame = r.Frame
		if r.Rate.Sign() == 0 { // what is said of the shot is nearer than what is said of all
			c.Rate = exact.Rat{}
		}
	}
	return c
}

// bytes is what a take is on the card; 0 where that is not known. What a camera says of
// a second of film says nothing of its stills.
func (c Card) bytes(f Film) exact.Rat {
	switch {
	case f.Stills || c.Rate.Sign() == 0:
		return exact.Int(f.Recorded).Mul(c.Frame)
	}
	return f.Record.Mul(c.Rate)
}

// Spent is where the real time of a take goes, in s.
type Spent struct {
	Slate, CountIn exact.Rat
	Lead           exact.Rat // recorded before the rig moves, and once more after it
	RunUp, Rounds  exact.Rat // the way back of a loop that is cut is in its rounds
	RunOut, Return exact.Rat
}

// Beside is what comes before and after the recording: what is counted while the camera
// runs is in that.
func (s Spent) Beside() exact.Rat {
	counted := s.CountIn.Sub(s.Lead)
	if counted.Sign() < 0 {
		counted = exact.Rat{}
	}
	return s.Slate.Add(counted).Add(s.Return)
}

// Moving is how long the rig moves in the take.
func (s Spent) Moving() exact.Rat { return s.RunUp.Add(s.Rounds).Add(s.RunOut) }

// All is all of it.
func (s Spent) All() exact.Rat {
	return s.Beside().Add(s.Lead).Add(s.Moving()).Add(s.Lead)
}

// spent is where the time of a take of a shot goes.
func (c *Clip) spent(p Piece, lead exact.Rat) Spent {
	t := p.Trajectory
	up, out := t.RampFrames()
	at := func(frames int64) exact.Rat { return t.Clock().FrameTime(frames) }
	s := Spent{Slate: c.Day.Slate, CountIn: c.Day.CountIn, Lead: lead, RunUp: at(up), Rounds: at(t.Rounds() * t.RoundFrames()), RunOut: at(out), Return: returns(t)}
	if needs := exact.Int(p.Beats); s.CountIn.Less(needs) {
		s.CountIn = needs
	}
	return s
}

// returnShare is the share of its greatest speed at which an axis goes back to where a take
// begins, one axis after the other, as the drive has it.
const returnShare = 0.1

// returns is how long the axes take back to where a take begins, to a tenth of a second
// up. One that turns without end need not go back.
func returns(t *trajectory.Trajectory) exact.Rat {
	begin, end := t.RampTimes()
	sum := 0.0
	for i := range t.AxisCount() {
		a := t.Axis(i)
		from := t.TakeState(i, t.Rounds(), exact.Int(t.Rounds()).Mul(t.Period()).Add(end).Float()).Pos
		away := math.Abs(from - t.TakeState(i, t.Rounds(), -begin.Float()).Pos)
		if a.Endless || away*a.StepsPerUnit.Float() < 1 {
			continue
		}
		jerk := math.Inf(1)
		if a.MaxJerk > 0 {
			jerk = a.MaxJerk
		}
		sum += law.Fastest(away, a.MaxSpeed*returnShare, a.MaxAcc, jerk).T
	}
	const grain = 10
	return exact.New(int64(math.Ceil(sum*grain)), grain)
}
