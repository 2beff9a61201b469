package planreport

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/export/report/picturereport"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/plain"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/light"
	"seamrail/motion/camera/picture"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
)

// Brief tells it in short: the verdict, what to set, to record and to keep, how the
// axes move, and what does not hold or is in doubt, with what would help.
func (d Data) Brief() report.Report { return d.begin().Report }

// begin begins both the short report and the whole one.
func (d Data) begin() *page {
	pl := d.Plan
	p := &page{report.Report{Title: pl.Title, Subtitle: pl.Rig.Name + " · plan " + pl.Hash()}, d, pl}
	p.verdict()
	p.leftOut()
	p.answer()
	p.faults()
	p.doubts()
	return p
}

// answer is what to do on the day, in a few lines.
func (p *page) answer() {
	pl := p.pl
	t, round := takeOf(pl)
	p.Named("answer", "")
	p.Fields("set", append([]string{p.settings(), p.starts()}, p.standing()...))
	p.Fields("by hand", pl.Presses())
	p.Field("record", fmt.Sprintf("%s, %s: %s", plain.Count(t.Recorded, "frame"), p.recording(""), takeParts(pl)))
	p.Field("keep", fmt.Sprintf("round %d: recorded frames %d to %d, counted from 0", round+1, t.First, t.Last))
	deliver, never := delivered(pl)
	p.Field("deliver", fmt.Sprintf("%s, %s on screen; never %s", deliver, seconds(pl.Loop.OnScreen()), never))
	p.Field("timecode", t.Start+" to "+t.End)
	p.Fields("set-up", SetUps(p.d.Laid))
	for i := range pl.Axes {
		a := &pl.Axes[i]
		words, tone := tightest(pl, a)
		p.Toned(tone, a.Rig.Name, moveWords(pl, a)+words)
	}
	p.lamps()
}

// settings are what is set on the camera, as far as the shot says.
func (p *page) settings() string {
	k := p.pl.Loop.Clock.Capture
	rate, _, _ := strings.Cut(clock.RateText(k), " ") // as a camera shows it
	out := []string{rate + " frames/s"}
	if p.d.Schedule != nil {
		out = []string{FramesPace(p.d.Schedule)}
	}
	if s := p.d.Scene; s != nil {
		open, l := s.Camera.Open(1/k.Float()), s.Lens.Third()
		if open.Given {
			out = append(out, "shutter "+light.ShutterText(open.Value))
		}
		if l.Aperture.Given {
			out = append(out, "f/"+unit.Format(l.Aperture.Value, unit.Number))
		}
		if s.Camera.ISO.Given {
			out = append(out, "ISO "+unit.Format(s.Camera.ISO.Value, unit.Number))
		}
		if l.Pull != nil {
			out = append(out, "focus pulled by the "+cue.Called(l.Pull.Hand))
		} else if l.Focus.Given {
			out = append(out, "sharp "+unit.Format(hundredth(l.Focus.Value), unit.Length)+" from the lens")
		}
	}
	return strings.Join(out, ", ")
}

// starts are where the axes stand before the take.
func (p *page) starts() string {
	t := trajectory.New(p.pl)
	out := make([]string, t.AxisCount())
	for i := range out {
		a := p.pl.Axes[i]
		before, first := 0.0, t.State(i, 0).Pos
		if a.RunUp != nil {
			before = -a.RunUp.Length()
		}
		d := dimensions(a.Rig.Unit())[0]
		from := unit.Format(hundredth(t.TakeState(i, t.Rounds(), before).Pos), d)
		out[i] = a.Rig.Name + " at " + from
		if ends := unit.Format(hundredth(first), d); ends != from {
			out[i] += " (its run-up ends at " + ends + ")"
		}
	}
	return strings.Join(out, ", ")
}

// hundredth is a place as it can be read off a scale.
func hundredth(v float64) float64 { return math.Round(v*100)/100 + 0 }

// standing is what has to be done about each display stand.
func (p *page) standing() []string {
	return report.Each(p.pl.Stands, func(s plan.Stand) string {
		return fmt.Sprintf("%s at its speed %s: a turn in %s s, %s from above; let it turn before the take begins",
			s.Rig.Name, s.Speed.Name, s.Speed.Period.Decimal(secondDigits), s.Rig.Direction)
	})
}

// delivered are the frames of the loop, and the one that follows.
func delivered(pl *plan.Plan) (frames, never string) {
	l := pl.Loop
	frames, never = "frame 0", fmt.Sprintf("frame %d", l.Captured)
	if l.Captured > 1 {
		frames = fmt.Sprintf("frames 0 to %d", l.Captured-1)
	}
	if pl.Back > 0 {
		never += " or what follows"
	}
	return frames, never
}

// tightest says which limit of an axis the move comes nearest to.
func tightest(pl *plan.Plan, a *plan.Axis) (string, report.Tone) {
	all := gauges(pl, a)
	top := slices.MaxFunc(all, func(a, b gauge) int { return cmp.Compare(a.share(), b.share()) })
	if top.share() == 0 {
		return "", report.Plain
	}
	told := percent(top.share())
	if told == percent(0) {
		told = "below 1 % of"
	}
	tone := shade(top.share())
	if tone == report.Good {
		tone = report.Plain // what needs no minding does not stand out
	}
	return "; " + top.name + " " + told + " limit", tone
}

// faults are what does not hold beside what the verdict tells already.
func (p *page) faults() {
	p.Named("faults", "DOES NOT HOLD")
	if x := p.d.Controller; x != nil {
		for _, f := range x.Faults {
			p.Bullets(report.Poor, "x", f.String())
		}
	}
	p.tellThose(func(v picture.Verdict) bool { return v.Level == picture.Poor })
	p.weak()
	p.open()
}

// open says what would close, where a stand does not come round and no other length of
// the loop alone would help.
func (p *page) open() {
	stays := func(s plan.Stand) bool { return !s.Seam.Closes() }
	if !slices.ContainsFunc(p.pl.Stands, stays) || len(p.pl.Nearest()) > 0 {
		return
	}
	if _, a, err := search(p.pl); err == nil {
		for _, f := range a.Fits {
			p.Bullets(report.Good, "+", f.Offer())
		}
	}
}

// doubts are what is not known, and what will do and no more.
func (p *page) doubts() {
	p.Named("doubts", "IN DOUBT")
	p.tellThose(func(v picture.Verdict) bool { return v.Level == picture.Unknown || v.Level == picture.Fair })
	if x := p.d.Controller; x != nil {
		for _, a := range x.Assumed {
			p.Bullets(report.Fair, "!", assumedWords(a))
		}
	}
	if p.d.Picture != nil {
		p.Toned(report.Dim, "would tell", picturereport.Lacks(*p.d.Picture))
	}
}

// tellThose tells of some verdicts what was found and what would help. What is not
// known at all of the picture is told by the numbers it wants.
func (p *page) tellThose(which func(picture.Verdict) bool) {
	all := p.d.Others
	if seen := p.d.Picture; seen != nil {
		all = slices.Concat(all, slices.DeleteFunc(slices.Clone(seen.Verdicts), lacking))
	}
	for _, v := range all {
		if !which(v) {
			continue
		}
		picturereport.Line(&p.Report, v)
		if v.Level != picture.Fair {
			picturereport.Help(&p.Report, v)
		}
	}
}
