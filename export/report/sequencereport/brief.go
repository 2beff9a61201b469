package sequencereport

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/list"
)

// Brief tells it in short: the clip and its loop, which shots hold, what the day takes,
// and what each cut does, with what would carry better.
func (d Data) Brief() report.Report {
	p := d.begin()
	p.Named("answer", "")
	p.length()
	p.ready()
	if d.Timeline != nil {
		p.Field("filmed", filmedWords(*d.Timeline))
	}
	p.Field("film", strings.Join(list.Map(p.c.Order.Order, func(n int) string { return p.c.Films[n].File }), ", "))
	p.Field("changes", orderWords(p.c))
	p.totals()
	p.Named("passages", "CUTS")
	for _, c := range p.c.Cuts {
		p.passage(c)
		for _, x := range d.Proposals {
			if p.c.Cuts[x.Cut].From == c.From && x.Better() {
				p.Toned(report.Dim, "", fmt.Sprintf("out at frame %d, in at frame %d carries better: %s", x.Out, x.In, carryWords(x.Would)))
			}
		}
	}
	p.leavesMusic()
	p.undissolved()
	p.troubles()
	return p.Report
}

// undissolved tells of dissolves that the sequence asks for and the takes do not bear.
func (p *page) undissolved() {
	if p.d.Timeline == nil {
		return
	}
	for i, j := range p.d.Timeline.Joins {
		if j.Stated && j.Lacks != "" {
			p.Add(report.Field{Label: between(*p.d.Timeline, i), Text: p.where(j) + "no dissolve", Tone: joinTone(j), Mark: joinMark(j)})
			p.Toned(report.Dim, "", j.Lacks)
		}
	}
}

// ready names the shots that are ready together, with what is not known of one or the
// other, and those that are not with what is said of them.
func (p *page) ready() {
	var good, unknown []string
	for _, x := range p.d.Heads {
		if h := x.Headline; h.Ready() && len(h.Fails) == 0 {
			good, unknown = append(good, x.File), append(unknown, h.Unknown...)
			continue
		}
		p.head(x)
	}
	if len(good) > 0 {
		p.Toned(report.Good, "READY", strings.Join(good, ", "))
	}
	slices.Sort(unknown)
	if unknown = slices.Compact(unknown); len(unknown) > 0 {
		p.Toned(report.Dim, "", "not known: "+strings.Join(unknown, ", "))
	}
}
