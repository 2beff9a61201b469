package sequencereport

import (
	"fmt"
	"math"
	"strings"

	"seamrail/export/report"
	"seamrail/motion/base/plain"
	"seamrail/motion/edit/sequence"
	"seamrail/motion/edit/timeline"
)

// proposals tell where cuts would carry the motion better, and what to write for it.
func (p *page) proposals() {
	p.Section("CUTS THAT WOULD CARRY BETTER")
	for _, x := range p.d.Proposals {
		c := p.c.Cuts[x.Cut]
		label := fmt.Sprintf("%d to %d", c.From+1, c.To+1)
		if !x.Better() {
			p.Toned(report.Dim, label, stays(x))
			continue
		}
		p.Toned(report.Good, label, fmt.Sprintf("out at frame %d, in at frame %d carries better: %s", x.Out, x.In, carryWords(x.Would)))
		p.Toned(report.Dim, "", fmt.Sprintf("now out at frame %d, in at frame %d: %s", p.c.Pieces[c.From].Last(), p.c.Pieces[c.To].From, carryWords(x.Was)))
		p.Toned(report.Dim, "", reachWords(x))
	}
	longer := int64(0)
	for _, x := range p.c.Changes(p.d.Proposals) {
		longer = x.Moved
		p.Fields(fmt.Sprintf("shot[%d]", x.Piece+1), lines(p.c.Pieces[x.Piece], x))
	}
	if len(p.d.Proposals) > 0 {
		if longer != 0 {
			p.Field("the clip", fmt.Sprintf("then has %d frames, for %d", p.c.Frames+longer, p.c.Frames))
		}
		p.leavesMusic()
		p.Add(report.Note{Text: "Least change of motion, in px a frame, and a forty-eighth of the jump, in px: of all pairs of frames within reach, as planned. How much of a jump an eye forgives is our guess. Frames below 0 are of the round before, those beyond the loop of the next."})
	}
}

// leavesMusic tells which ends of shots would no longer be on the music.
func (p *page) leavesMusic() {
	var off []string
	for _, x := range p.c.Changes(p.d.Proposals) {
		if x.Moved != 0 && p.c.Pieces[x.Piece].Entry.OnMusic() {
			off = append(off, fmt.Sprint(x.Piece+1))
		}
	}
	if len(off) > 0 {
		p.Toned(report.Fair, "the music", "is left by the ends of "+plain.Count(len(off), "shot")+": "+strings.Join(off, ", "))
	}
}

// lines are what a change writes anew in a [[shot]].
func lines(now sequence.Piece, x sequence.Change) (out []string) {
	if x.From != now.From {
		out = append(out, fmt.Sprintf("from = \"%d frames\"", x.From))
	}
	if x.Length != now.Frames || x.Restated {
		words := fmt.Sprintf("length = \"%d frames\"", x.Length)
		if key := now.Entry.Lasts(); key != "length" && key != "" {
			words += ", instead of " + key
		}
		out = append(out, words)
	}
	return out
}

// stays says why a cut is left as it is.
func stays(x sequence.Proposal) string {
	if x.Fine() {
		return "stays: it is off by less than half a pixel a frame, which nobody sees"
	}
	return "stays: no other pair of frames carries better by more than a tenth, " + reachWords(x)
}

func reachWords(x sequence.Proposal) string {
	return fmt.Sprintf("of out frames %d to %d and in frames %d to %d", x.OutFrom, x.OutTo, x.InFrom, x.InTo)
}

// carryWords tell how a picture goes on.
func carryWords(c sequence.Carry) string {
	words := fmt.Sprintf("the motion changes by %s px/frame", short(calm(c.Kick)))
	if c.Turn >= 1 {
		words += fmt.Sprintf(" and turns by %.0f degrees", c.Turn)
	}
	if jump := math.Hypot(c.Jump, c.Grows); calm(jump) > 0 {
		return words + fmt.Sprintf(", the product jumps %s px", short(calm(jump)))
	}
	return words + ", the product is where it would have gone"
}

// calm is a number of px without what is less than anybody could see of it.
func calm(px float64) float64 {
	const grain = 0.01
	if px < grain {
		return 0
	}
	return math.Round(px/grain) * grain
}

// takes tell which take each shot is shown from, and how each leads into the next.
func (p *page) takes() {
	p.Section("TAKES AND SEAMS")
	t := p.d.Timeline
	if t == nil {
		return
	}
	p.Field("filmed", filmedWords(*t))
	for _, e := range t.Events[:min(len(t.Events), mostTold)] {
		p.take(*t, e)
	}
	for i, j := range t.Joins {
		if i >= mostTold && i < len(t.Joins)-1 {
			continue
		}
		if words := joinWords(*t, j); words != "" {
			p.Add(report.Field{Label: between(*t, i), Text: p.where(j) + words, Tone: joinTone(j), Mark: joinMark(j)})
			p.Toned(report.Dim, "", j.Lacks)
		}
	}
	if more := len(t.Events) - mostTold; more > 0 {
		p.Add(report.Note{Text: fmt.Sprintf("And %s more, which the files of --make have.", plain.Count(more, "event"))})
	}
}

// filmedWords count the shots that are shown from kept takes.
func filmedWords(t timeline.Timeline) string {
	kept := map[int]bool{}
	for _, e := range t.Events {
		if !e.Planned() {
			kept[e.Piece] = true
		}
	}
	return fmt.Sprintf("%d of %s from kept takes", len(kept), plain.Count(len(t.Clip.Pieces), "shot"))
}

// mostTold bounds the stretches that are told of; the last, which leads into the first, is
// always among them, and the files have all.
const mostTold = 50

func (p *page) take(t timeline.Timeline, e timeline.Event) {
	per := t.Piece(e).Shot.Clock.PerScreen()
	words := fmt.Sprintf("%s, reel %s: frames %s to %d of %d", e.Name(), e.Reel, e.First.Floor(), e.Last(per), e.Recorded)
	if e.InFilm() {
		words += " of " + e.Film.File
	}
	tone := report.Plain
	if e.Planned() {
		tone = report.Fair
	}
	p.Toned(tone, fmt.Sprintf("%3d", e.Piece+1), words)
	back := ""
	if r := t.Piece(e).Trajectory; r.RoundFrames() > r.Captured() && e.Before+e.After > 0 {
		back = ", the rig's way back in them"
	}
	p.Toned(report.Dim, "", fmt.Sprintf("handles of %d and %d frames on the timeline%s, round %d of %d%s", e.Before, e.After, back, e.Round+1, e.Rounds, offWords(e)))
	p.Toned(report.Dim, "", ownSeam(t.Piece(e), e))
	p.Toned(report.Dim, "", strings.Join(e.Notes, "; "))
}

// ownSeam tells how the loop of a take meets its own beginning.
func ownSeam(p sequence.Piece, e timeline.Event) string {
	switch {
	case !e.Loop.Known && p.Closed():
		return "its own loop closes, as planned"
	case !e.Loop.Known:
		return "its own loop is cut back"
	case e.Loop.Shows:
		return "its own loop shows where it begins again: " + carryWords(e.Loop.Carry)
	}
	return "its own loop begins again without that being seen, as planned"
}

// offWords tell by how much a take was off.
func offWords(e timeline.Event) string {
	var parts []string
	for _, o := range e.Off {
		parts = append(parts, fmt.Sprintf("%s %s", o.Axis, speedText(math.Abs(o.Value), o.Unit)))
	}
	if len(parts) == 0 {
		return ""
	}
	return "; off its plan at the worst: " + strings.Join(parts, ", ")
}

// kept is the last frame of the clip.
func kept(t timeline.Timeline) string {
	if t.Events[0].Planned() || t.Events[len(t.Events)-1].Planned() {
		return "the last frame, as planned,"
	}
	return "the last kept frame"
}

func between(t timeline.Timeline, i int) string {
	from, to := t.Events[i].Piece, t.Events[(i+1)%len(t.Events)].Piece
	if from == to && i+1 < len(t.Events) {
		return fmt.Sprintf("in %d", from+1)
	}
	return fmt.Sprintf("%d to %d", from+1, to+1)
}

// where says when a join is, or that it is the clip's loop.
func (p *page) where(j timeline.Join) string {
	if j.Frame >= p.c.Frames {
		return "the loop: "
	}
	return p.c.Label(j.Frame) + "  "
}

func joinTone(j timeline.Join) report.Tone {
	switch {
	case j.Lacks != "":
		return report.Poor
	case j.Kind == timeline.Seam && j.Shows && j.Length() == 0:
		return report.Fair
	}
	return report.Good
}

func joinMark(j timeline.Join) string {
	switch joinTone(j) {
	case report.Poor:
		return "x"
	case report.Fair:
		return "~"
	}
	return ""
}

// joinWords tell how one stretch leads into the next; "" for a plain cut within the clip,
// of which CUTS tells.
func joinWords(t timeline.Timeline, j timeline.Join) string {
	closing := j.Frame >= t.Clip.Frames
	var words string
	switch {
	case j.Kind == timeline.GoesOn && closing:
		words = kept(t) + " leads into the first as one shot"
	case j.Kind == timeline.GoesOn:
		return ""
	case j.Length() > 0:
		words = fmt.Sprintf("a dissolve of %d frames, %d before and %d after it", j.Length(), j.In, j.Out)
		if !j.Stated {
			words += ", chosen since " + carryWords(j.Carry)
		}
	case j.Kind == timeline.Seam && !j.Known:
		words = "the loop begins again; whether that shows is not known without a camera"
	case j.Kind == timeline.Seam && j.Shows:
		words = "the loop begins again, and that shows: " + carryWords(j.Carry)
	case j.Kind == timeline.Seam:
		words = "the loop begins again, and that is not seen"
	case closing && j.Known:
		words = "from " + kept(t) + " to the first " + carryWords(j.Carry)
	case closing:
		words = "how " + kept(t) + " leads into the first is not known without a camera"
	case j.Lacks != "":
		words = "no dissolve"
	default:
		return ""
	}
	if j.OffKnown {
		words += fmt.Sprintf("; as reported the takes may be off their plans by %s px together", short(calm(j.Off)))
	} else if closing && !t.Events[0].Planned() {
		words += "; by how much the takes were off their plans is not known"
	}
	return words
}
