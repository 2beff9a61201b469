package sequencereport

import (
	"fmt"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/mediasize"
	"seamrail/motion/edit/sequence"
)

func (p *page) order() {
	p.Section("ORDER TO FILM IN")
	var last *sequence.Film
	for i, n := range p.c.Order.Order {
		f := &p.c.Films[n]
		p.Field(fmt.Sprintf("%3d", i+1), fmt.Sprintf("%s, %s", f.File, plain.Count(f.Takes, "take")))
		if last == nil || last.Setup.Rig != f.Setup.Rig {
			p.Toned(report.Strong, "", "rig: "+f.Setup.Rig)
		}
		if last == nil || last.Setup.Light != f.Setup.Light {
			p.Toned(report.Strong, "", "light: "+f.Setup.Light)
		}
		last = f
	}
	p.Field("changes", orderWords(p.c))
}

func orderWords(c *sequence.Clip) string {
	o := c.Order
	if o.RigChanges+o.LightChanges == 0 {
		return "none; all of it is one set-up"
	}
	words := fmt.Sprintf("%d of the rig, %d of the light", o.RigChanges, o.LightChanges)
	needs := "needs fewer changes"
	if !c.Counted {
		words += ", " + duration(c.Totals().Changes) + " in all"
		needs = "takes less time for changes"
	}
	if o.Least {
		return words + "; no order " + needs
	}
	return words + "; the best found, and perhaps another " + needs
}

func (p *page) needs() {
	p.Section("WHAT IT TAKES")
	for _, f := range p.c.Films {
		what := "frame"
		if f.Stills {
			what = "still"
		}
		p.Field("a take", fmt.Sprintf("%s: the rig moves for %s, recorded for %s in %s%s", f.File, duration(f.Seconds), duration(f.Record),
			plain.Count(f.Recorded, what), sized(f.Bytes)))
		p.Toned(report.Dim, "", spentWords(f.Spent))
	}
	p.totals()
}

// totals are of the whole day.
func (p *page) totals() {
	t := p.c.Totals()
	p.Field("all takes", fmt.Sprintf("%s, the rig moving for %s; recorded for %s%s", plain.Count(t.Takes, "take"), duration(t.Motion), duration(t.Record), sized(t.All())))
	p.Field("card", cardWords(p.c.Card, t))
	p.Field("real time", dayWords(p.c, t))
}

func sized(bytes exact.Rat) string {
	if bytes.Sign() == 0 {
		return ""
	}
	return ", " + mediasize.SizeText(bytes)
}

// spentWords tell where the real time of a take goes.
func spentWords(s sequence.Spent) string {
	parts := []string{aheadWords(s)}
	if s.Slate.Sign() > 0 {
		parts = []string{"slate " + duration(s.Slate), aheadWords(s)}
	}
	for _, x := range []struct {
		what string
		sec  exact.Rat
	}{{"run-up", s.RunUp}, {"rounds", s.Rounds}, {"run-out", s.RunOut}, {"camera on", s.Lead}, {"back to the start about", s.Return}} {
		if x.sec.Sign() > 0 {
			parts = append(parts, x.what+" "+duration(x.sec))
		}
	}
	return duration(s.All()) + " in all: " + strings.Join(parts, ", ")
}

// aheadWords tell of the count-in, and of what the camera records of it.
func aheadWords(s sequence.Spent) string {
	switch {
	case s.Lead.Sign() == 0:
		return "count-in " + duration(s.CountIn)
	case s.CountIn.Less(s.Lead):
		return "camera ahead " + duration(s.Lead) + " with the count-in"
	}
	return fmt.Sprintf("count-in %s, the camera on for the last %s", duration(s.CountIn), duration(s.Lead))
}

func cardWords(c sequence.Card, t sequence.Totals) string {
	bytes := t.Bytes
	switch {
	case !c.Known() && bytes.Sign() == 0:
		return "not known; state bitrate = \"400 Mbit/s\" or frame-size under [card], as the camera's manual has it"
	case t.Unsized > 0 && !c.Known():
		return fmt.Sprintf("%s for what is known; not known of %s; state bitrate = \"400 Mbit/s\" or frame-size under [card], or beside the shots", mediasize.SizeText(bytes), plain.Count(t.Unsized, "take"))
	case t.Unsized > 0:
		words := fmt.Sprintf("not known of the stills of %s; state frame-size = \"25 MB\" under [card], as the camera's manual has it for the format of its stills", plain.Count(t.Unsized, "take"))
		if bytes.Sign() > 0 {
			words = mediasize.SizeText(bytes) + " for what is filmed; " + words
		}
		return words
	case c.Size.Sign() == 0:
		return mediasize.SizeText(bytes)
	}
	share := bytes.Quo(c.Size)
	if !exact.Int(1).Less(share) {
		return fmt.Sprintf("%s, %s %% of a card of %s", mediasize.SizeText(bytes), share.Mul(exact.Int(100)).Decimal(1), mediasize.SizeText(c.Size))
	}
	return fmt.Sprintf("%s: at least %d cards of %s", mediasize.SizeText(bytes), share.Ceil().Whole(), mediasize.SizeText(c.Size))
}

func dayWords(c *sequence.Clip, t sequence.Totals) string {
	words := duration(t.Day) + ": recording"
	if t.Changes.Sign() > 0 {
		words += ", changes " + duration(t.Changes)
	}
	if t.Between.Sign() > 0 {
		words += ", between takes " + duration(t.Between)
	}
	if !c.Day.Timed && c.Order.RigChanges+c.Order.LightChanges > 0 {
		words += "; what changes take is not stated ([day])"
	}
	return words
}
