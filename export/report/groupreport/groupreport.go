// Package groupreport tells how well the passes of a group match.
package groupreport

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/passes"
)

// Data is what there is to tell.
type Data struct {
	Name    string // of the group
	Virtual bool   // on a rig made of software: nothing was filmed
	Group   passes.Group
	NoScale string // why nothing is known of the picture; "" where it is
}

// Report tells it to people.
func (d Data) Report() report.Report {
	r := report.Report{Title: "Passes of " + d.Name}
	if d.Virtual {
		r.Subtitle = "on a rig made of software: nothing was filmed"
	}
	d.headline(&r)
	r.Named("passes", "PASSES")
	if t := table(d.Group); len(t.Rows) > 0 {
		r.Add(t)
	}
	for _, m := range d.Group.Matches {
		d.match(&r, m)
	}
	d.unseen(&r)
	r.Named("left-out", "LEFT OUT")
	for _, l := range d.Group.LeftOut {
		r.Bullets(report.Dim, "-", fmt.Sprintf("take %d: %s", l.Take, l.Why))
	}
	return r
}

// table is a row a pass.
func table(g passes.Group) report.Table {
	heads := []string{"take", "pass", "rounds", "took", "out by", "kept", "clip"}
	if g.FrameByFrame() {
		heads = []string{"take", "pass", "frames", "took", "kept", "clip"}
	}
	t := report.Table{}
	for _, head := range heads {
		t.Columns = append(t.Columns, report.Column{Head: head})
	}
	for _, f := range g.Passes {
		cells := []string{fmt.Sprint(f.Take), f.Pass, fmt.Sprint(f.Rounds), took(f), outBy(f), yes(f.Keep), f.Clip}
		if f.Stills != nil {
			cells = []string{fmt.Sprint(f.Take), f.Pass, frames(*f.Stills), took(f), yes(f.Keep), f.Clip}
		}
		t.Rows = append(t.Rows, report.Row{Cells: cells})
	}
	return t
}

// frames says which frames a take has, of a take frame by frame.
func frames(s passes.Stills) string {
	if s.From == 0 {
		return fmt.Sprint(s.Exposed)
	}
	return fmt.Sprintf("%d to %d", s.From, s.Exposed-1)
}

func yes(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

func took(f passes.Filmed) string {
	if f.Took == 0 {
		return "not measured"
	}
	return fmt.Sprintf("%.3f s", f.Took)
}

func outBy(f passes.Filmed) string {
	if f.Took == 0 {
		return ""
	}
	return fmt.Sprintf("%.1f ms", f.OutBy*1000)
}

// headline says how well they match.
func (d Data) headline(r *report.Report) {
	g := d.Group
	_, _, known := g.Within()
	switch {
	case len(g.Passes) < 2:
		r.Headline(report.Fair, "ONE PASS", "A group matches or not once a second pass is filmed that can be used.")
	case !g.Whole():
		r.Headline(report.Poor, "NO MATCH", "Passes of it were not filmed alike; what differs stands below.")
	case known:
		d.answer(r)
	default:
		why := d.NoScale
		if why == "" {
			why = "not all of it was reported or measured"
		}
		r.Headline(report.Fair, "ALIKE", "These passes were filmed alike: "+why+", so that it is not known in px how well they match.")
	}
}

// answer says it where it is known in px.
func (d Data) answer(r *report.Report) {
	px, outBy, _ := d.Group.Within()
	within, rests := pixels(px)+" on the near face", ", by all places that were reported."
	if !d.Group.FrameByFrame() {
		within += ", give or take " + pixels(outBy)
		rests = ", by all that was reported and timed. The camera's own clock is not in that."
	}
	unseen := fmt.Sprintf("%g px, below which no pixel need change", passes.Unseen)
	switch d.Group.Answer() {
	case passes.Matches:
		r.Headline(report.Good, "MATCH", "These passes match within "+within+rests)
	case passes.Differ:
		r.Headline(report.Poor, "DIFFER", "These passes may be apart by "+within+rests+" That is more than "+unseen+".")
	default:
		r.Headline(report.Fair, "NOT KNOWN WELL ENOUGH", "These passes are apart by "+within+rests+" They match up to "+unseen+". "+surer)
	}
}

// surer says what would make a figure surer that is not known well enough: time alone is in
// doubt, and what that is in the picture goes with its speed.
const surer = "It is time that is not sure enough: lay the last frames of the recordings over each other and look, or film where less hangs on time, slower or frame by frame."

// pixels is a length in the picture; what is less than a hundredth moves nothing.
func pixels(px float64) string { return fmt.Sprintf("%.2f px", px) }

// match tells of a pass against the first.
func (d Data) match(r *report.Report, m passes.Match) {
	first := d.Group.Passes[0]
	r.Member(fmt.Sprintf("take %d", m.Take.Take), "differences", fmt.Sprintf("%s, AGAINST %s", strings.ToUpper(m.Take.Name()), strings.ToUpper(first.Name())))
	for _, text := range m.Differs {
		r.Bullets(report.Poor, "x", text)
	}
	if m.Take.Stills != nil {
		d.stills(r, m)
		return
	}
	if len(m.Axes) > 0 {
		d.film(r, m)
	}
	if m.Align != nil {
		r.Field("lay it", d.align(*m.Align, m.Take))
	}
}

// film tells of a pass that the camera ran through.
func (d Data) film(r *report.Report, m passes.Match) {
	r.Field("start", strings.Join(list(m.Axes, func(a passes.Apart) string { return start(a) }), "; "))
	r.Field("on the way", strings.Join(list(m.Axes, way), "; "))
	r.Field("time", d.time(m))
	if m.Known {
		r.Field("picture", fmt.Sprintf("%s apart at the worst, give or take %s: places, and time where it moves fastest", pixels(m.PX), pixels(m.OutBy)))
	}
}

// stills tells of a pass frame by frame: where each frame was exposed, and nothing of time.
func (d Data) stills(r *report.Report, m passes.Match) {
	if len(m.Axes) > 0 {
		r.Field("in its frames", strings.Join(list(m.Axes, way), "; "))
	}
	if m.Known {
		r.Field("picture", pixels(m.PX)+" apart at the worst, by places")
	}
	if s := m.Take.Stills; s.From > 0 {
		r.Bullets(report.Fair, "!", fmt.Sprintf("It begins with frame %d: those before are of an earlier take, and how the two fit is in no report.", s.From))
	}
}

// align says where to lay a recording on that of the first, by their sync marks.
func (d Data) align(a passes.Align, f passes.Filmed) string {
	first := d.Group.Passes[0]
	whole, rest := a.Whole()
	way := "later"
	if whole > 0 {
		way = "sooner"
	}
	by := fmt.Sprintf("%s %s", plain.Count(max(whole, -whole), "frame"), way)
	if whole == 0 {
		by = "as it is"
	}
	text := fmt.Sprintf("its first frame on that of take %d, and then %s", first.Take, by)
	if !a.Seen {
		text = fmt.Sprintf("the first frame of its sync mark on that of take %d, and then %s", first.Take, by)
	}
	text += fmt.Sprintf(" (%.2f, give or take %.2f)", math.Abs(a.Frames), a.Out)
	if px := math.Abs(rest) / first.Start.Capture.Float() * d.Group.Scale.PerSecond; d.Group.Scale.Known() {
		text += fmt.Sprintf("; the part of a frame that is left is %s where it moves fastest", pixels(px))
	}
	if !a.Seen {
		text += fmt.Sprintf("; where the marks are seen is not told of both: seamrail takes --take %d --mark-seen", f.Take)
	}
	return text
}

func list(axes []passes.Apart, text func(passes.Apart) string) []string {
	out := make([]string, len(axes))
	for i, a := range axes {
		out[i] = text(a)
	}
	return out
}

func start(a passes.Apart) string {
	if !a.StartKnown {
		return a.Axis + " not reported"
	}
	return fmt.Sprintf("%s %+.3f %s", a.Axis, a.Start+0, a.Unit)
}

func way(a passes.Apart) string {
	if !a.WayKnown {
		return a.Axis + " not reported"
	}
	return fmt.Sprintf("%s %.3f %s apart at most", a.Axis, a.Way, a.Unit)
}

// time says by how much later one ends.
func (d Data) time(m passes.Match) string {
	if !m.LateKnown {
		return "not measured of both"
	}
	side := "later"
	if m.Late < 0 {
		side = "sooner"
	}
	frames := d.Group.Passes[0].Start.Capture.Float()
	return fmt.Sprintf("%.1f ms %s at the end, give or take %.1f ms: %.2f of a frame, give or take %.2f; its rate differs by %.0f ppm, give or take %.0f",
		math.Abs(m.Late)*1000, side, m.Doubt*1000, math.Abs(m.Late)*frames, m.Doubt*frames, math.Abs(m.Rate())*1e6, m.RateDoubt()*1e6)
}

// unseen says what no log tells.
func (d Data) unseen(r *report.Report) {
	if len(d.Group.Passes) < 2 {
		return
	}
	r.Named("not-seen", "NOT SEEN")
	if d.Group.FrameByFrame() {
		r.Bullets(report.Fair, "!", "Each frame is an exposure of its own, at rest: no clock of a camera comes into it. Count the files of each pass: one that was exposed twice, or not, moves all that follow.")
	} else {
		r.Bullets(report.Fair, "!", d.camera())
	}
	r.Bullets(report.Fair, "!",
		"Motors that lost steps, a stand or a lamp that was touched, and a lens that was turned are in no report. Homing before each pass shows lost steps.")
	rests, unseen := d.Group.Sides()
	if len(rests) > 0 {
		r.Bullets(report.Fair, "!", fmt.Sprintf("At rest in the take: %s. From which side such an axis came need not be the same in every pass where something else moved it.", strings.Join(rests, ", ")))
	}
	if len(unseen) > 0 {
		r.Bullets(report.Fair, "!", fmt.Sprintf("Logged by hand: from which side %s came to the start is not known of every pass. Come from the same one, so that play lies alike.", strings.Join(unseen, ", ")))
	}
}

// camera says what the clock of a camera that runs leaves open.
func (d Data) camera() string {
	sec, px := d.Group.Camera()
	text := fmt.Sprintf("The camera's clock does not run with the rig's: frames of two passes that are laid on each other differ by up to half a frame, %.1f ms", sec*1000)
	if d.Group.Scale.Known() {
		text += ", " + pixels(px) + " where it moves fastest"
	}
	marked := func(m passes.Match) bool { return m.Align != nil }
	if slices.ContainsFunc(d.Group.Matches, marked) {
		return text + "; sync marks do not tell that half."
	}
	return text + "; lay them by a mark that all of them have: [sync-mark] in the shot makes one."
}
