package sequence

import (
	"seamrail/motion/base/exact"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/edit/mediasize"
)

func (r RawCard) build(report *source.Report) Card {
	c := Card{Lead: exact.Int(2)}
	c.Rate = measured(report, r.Bitrate, "card.bitrate", mediasize.ParseRate)
	c.Frame = measured(report, r.FrameSize, "card.frame-size", mediasize.ParseSize)
	c.Size = measured(report, r.Size, "card.size", mediasize.ParseSize)
	if r.Lead.Set {
		c.Lead, _ = duration(report, r.Lead, "card.lead")
	} else {
		report.Default("card.lead", "2 s", "the camera is started before the rig, and stopped after it")
	}
	return c
}

// measured reads bytes, or a rate of them; 0 where nothing is said.
func measured(report *source.Report, t source.Text, path string, parse func(string) (exact.Rat, error)) exact.Rat {
	if !t.Set {
		return exact.Rat{}
	}
	v, err := parse(t.Text)
	if err != nil {
		report.Wrong(t, path, err.Error(), "")
	}
	return v
}

func (r RawDay) build(report *source.Report) Day {
	d := Day{CountIn: usualCountIn}
	for _, x := range []struct {
		text source.Text
		key  string
		to   *exact.Rat
	}{{r.RigChange, "rig-change", &d.RigChange}, {r.LightChange, "light-change", &d.LightChange}, {r.BetweenTakes, "between-takes", &d.Between},
		{r.Slate, "slate", &d.Slate}, {r.CountIn, "count-in", &d.CountIn}} {
		if x.text.Set {
			*x.to, _ = duration(report, x.text, "day."+x.key)
		}
	}
	d.Timed = r.RigChange.Set && r.LightChange.Set
	if r.RigChange.Set != r.LightChange.Set {
		missing := "light-change"
		if r.LightChange.Set {
			missing = "rig-change"
		}
		report.Missing(r.Place, "day."+missing, `"10 min"`)
	}
	return d
}

// usualCountIn is what is counted before a take unless told: as drive counts.
var usualCountIn = exact.Int(3)

// maxDuration bounds a real time between takes: a week.
var maxDuration = exact.Int(7 * 24 * 3600)

// duration reads a real time of 0 or more, in seconds.
func duration(report *source.Report, t source.Text, path string) (exact.Rat, bool) {
	q, ok := report.Quantity(t, path, unit.Time)
	if !ok {
		return exact.Rat{}, false
	}
	if q.Value.Sign() < 0 || maxDuration.Less(q.Value) {
		report.Wrong(t, path, "must be from 0 s to a week", `such as "30 min"`)
		return exact.Rat{}, false
	}
	return q.Value, true
}
