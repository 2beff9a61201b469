package footagereport

import (
	"seamrail/export/report"
	"seamrail/motion/footage/pace"
)

// paceVerdict is the headline of a take of which only the times are known.
func paceVerdict(v pace.Verdict) (report.Tone, string, string) {
	if v.Kind == pace.ByTimes {
		return report.Fair, "BY THE PLAN'S TIMES", v.Text
	}
	return report.Poor, "NOT THE PLAN", v.Text
}

// pace tells what is known of a take whose picture has no one shift: a product that turns.
func (d Data) pace(r *report.Report) {
	if d.Pace == nil {
		return
	}
	r.Named("pace", "BY HOW MUCH IT CHANGES")
	if d.First > 0 {
		r.Bullets(report.Dim, " ", "Frames here count from the first that was looked at.")
	}
	r.Bullets(report.Plain, "-", d.Pace.Sentences()...)
	r.Bullets(report.Dim, "·", d.Pace.Verdict.Unproven...)
}

// paceFacts are those of it, for programs.
func (d Data) paceFacts() *Pace {
	if d.Pace == nil {
		return nil
	}
	word := map[pace.Kind]string{pace.ByTimes: "by its times", pace.Differs: "differs"}[d.Pace.Verdict.Kind]
	if word == "" {
		word = "not known"
	}
	out := &Pace{Verdict: word, Sentences: report.List(d.Pace.Sentences()), Unproven: report.List(d.Pace.Verdict.Unproven)}
	if f := d.Pace.Frame0; f.Known && d.Pace.Verdict.Kind == pace.ByTimes {
		out.Frame0 = Number{kept.OrNull(f.Value + float64(d.First)), kept.OrNull(f.Sure)}
	}
	return out
}
