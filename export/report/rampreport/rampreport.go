// Package rampreport tells what ramp a rig makes of its own, as takes show it.
package rampreport

import (
	"fmt"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/list"
	"seamrail/motion/law/rampfit"
)

// Data is what there is to tell: the takes, in the order in which they were given.
type Data struct{ Takes []rampfit.Found }

// Fits tells whether one law was found for all takes.
func (d Data) Fits() bool { return rampfit.Compare(d.Takes).Law != "" }

// Report tells it to people.
func (d Data) Report() report.Report {
	var r report.Report
	r.Title = "The ramp of the rig, by what was read off its takes"
	t := rampfit.Compare(d.Takes)
	d.verdict(&r, t)
	for i, f := range d.Takes {
		r.Section(fmt.Sprintf("TAKE %d", i+1))
		take(&r, f, t.Fits[i])
	}
	if lines := d.Keep(); len(lines) > 0 {
		r.Named("keep", "FOR THE RIG FILE")
		for _, l := range lines {
			r.Add(report.Note{Text: l})
		}
	}
	return r
}

func (d Data) verdict(r *report.Report, t rampfit.Together) {
	if t.Law != "" {
		r.Headline(report.Good, "FOUND", words(t))
		return
	}
	var out []string
	for _, f := range d.Takes {
		if !f.Best.Fits {
			out = append(out, fmt.Sprintf("%s: the nearest is %s, off by %s where a reading is taken to be sure to %s",
				f.Take.File, f.Best.Law, digits(f.Best.RMS), digits(f.Sure)))
		}
	}
	if len(out) == 0 {
		r.Headline(report.Poor, "NONE FITS ALL", "Each take has a law of its own: "+strings.Join(list.Map(t.Fits, func(f rampfit.Fit) string { return f.Law }), ", ")+
			". Either it goes by another ramp in each, or a take was read otherwise than the others.")
		return
	}
	r.Headline(report.Poor, "NONE FITS", "No law of the catalogue is how it goes. "+strings.Join(out, "; ")+
		". If readings are less sure than that, --sure says how sure they are; else it goes in a way that no law here has.")
}

// words say what was found, of all takes.
func words(t rampfit.Together) string { return ramps(t) + others(t) }

// ramps say by which law it goes, and what is known of its ramps.
func ramps(t rampfit.Together) string {
	law := "It goes by the " + t.Law + " law"
	switch {
	case len(t.Fits) == 1:
		return law + rampWords(t.Fits[0]) + "."
	case t.Fits[0].Ramp == 0:
		return law + " in every take."
	case t.TimeHolds && t.ShareDoes:
		return law + ". Whether a ramp keeps its time or its share of the way these takes do not tell: their times are too near to each other."
	case t.TimeHolds:
		return fmt.Sprintf("%s, and each ramp lasts %s%s s whatever the time of the way.", law, digits(t.Seconds.Value), sure(t.Seconds.Sure))
	case t.ShareDoes:
		return fmt.Sprintf("%s, and each ramp takes %s%s of the time of the way.", law, digits(t.Share.Value), sure(t.Share.Sure))
	}
	return law + ", and its ramps keep neither a time nor a share of the way: state the one that was measured nearest to the time you film with."
}

// others say which laws the readings do not tell it from.
func others(t rampfit.Together) string {
	if len(t.Others) == 0 {
		return ""
	}
	return " These readings do not tell that from " + strings.Join(t.Others, ", ") + "."
}

func rampWords(b rampfit.Fit) string {
	if b.Ramp == 0 {
		return ""
	}
	words := fmt.Sprintf(", with ramps of %s%s s, %s of the way's time", digits(b.Seconds), sure(b.SecondsSure), digits(b.Ramp))
	if b.JerkShare > 0 {
		words += fmt.Sprintf(", in %s%s of which acceleration builds up", digits(b.JerkShare), sure(b.JerkSure))
	}
	return words
}

// take tells of one take what was laid through it.
func take(r *report.Report, f rampfit.Found, b rampfit.Fit) {
	r.Field("file", f.Take.File)
	r.Field("read", fmt.Sprintf("%d readings of one way, each taken to be sure to %s", len(f.Take.Readings), digits(f.Sure)))
	r.Field("goes", fmt.Sprintf("from %s to %s in %s%s s, from %s s on", digits(b.From), digits(b.To), digits(b.Way), sure(b.WaySure), digits(b.Start)))
	r.Field("law", b.Law+rampWords(b))
	tone := report.Good
	if !b.Fits {
		tone = report.Poor
	}
	r.Toned(tone, "left over", fmt.Sprintf("%s on the average, %s at the worst, at %s s", digits(b.RMS), digits(b.Worst), digits(b.WorstAt)))
	t := report.Table{Columns: []report.Column{{Head: "law"}, {Head: "off by"}, {Head: "ramp"}, {Head: "fits"}}}
	for _, x := range f.All {
		ramp, fits := "none of its own", "no"
		if x.Ramp > 0 {
			ramp = digits(x.Seconds) + " s"
		}
		if x.Fits {
			fits = "yes"
		}
		t.Rows = append(t.Rows, report.Row{Cells: []string{x.Law, digits(x.RMS), ramp, fits}})
	}
	r.Add(t)
}

// Keep are the lines for the rig file, none where no law fits, or where its ramps keep
// neither a time nor a share.
func (d Data) Keep() []string {
	t := rampfit.Compare(d.Takes)
	if t.Law == "" {
		return nil
	}
	out, b := []string{"[controller.ramp]", fmt.Sprintf("law = %q", t.Law)}, t.Fits[0]
	switch {
	case b.Ramp == 0:
	case !t.TimeHolds && !t.ShareDoes:
		return nil
	case !t.TimeHolds:
		out = append(out, fmt.Sprintf("share = %q", digits(t.Share.Value)))
	default:
		out = append(out, fmt.Sprintf("time = \"%s s\"", digits(t.Seconds.Value)))
		if t.ShareDoes {
			out = append(out, fmt.Sprintf("# or share = %q: another time of the way tells which", digits(t.Share.Value)))
		}
	}
	if b.JerkShare > 0 {
		out = append(out, fmt.Sprintf("jerk-share = %q", digits(t.Jerk.Value)))
	}
	return out
}

// digits prints a number that was measured: four digits, without an exponent.
func digits(v float64) string { return report.Digits(v, 4) }

// sure prints a standard uncertainty, two digits of it (JCGM 100:2008, 7.2.6); nothing where
// the readings do not tell it.
func sure(v float64) string {
	if v == 0 {
		return ""
	}
	return " ± " + report.Digits(v, 2)
}
