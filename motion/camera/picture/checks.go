package picture

import "seamrail/motion/base/list"

// aspect is a part of a shot that may be changed by itself.
type aspect int

// The parts. What carries the camera counts as the place, as far as it stands.
const (
	ofShutter aspect = 1 << iota
	ofIris
	ofFocus
	ofPlace
	ofLight // lamps, sensitivity and filters
	ofMotion
	ofPlay
	ofHoles
	ofDark

	ofView    = ofFocus | ofPlace | ofMotion // Lights things come in the picture
	ofExposed = ofView | ofShutter           // and how they move while it is exposed
)

// check is a question about the picture and what its answer depends on.
type check struct {
	on    aspect
	paced bool // a longer or a shorter loop may change it
	tell  func() Verdict
}

// checks are all the questions, in the order of the report.
func (e *eye) checks(rows []Row) []check {
	out := []check{
		{ofPlace | ofMotion, false, e.clearanceVerdict},
		{ofPlace | ofMotion, false, e.approachVerdict},
	}
	for i := range e.scene.Holes {
		out = append(out, check{ofPlace | ofMotion | ofHoles, false, func() Verdict { return e.holeVerdict(i) }})
	}
	out = append(out,
		check{ofExposed, false, func() Verdict { return e.magnificationVerdict(rows) }},
		check{ofExposed, false, func() Verdict { return e.fieldVerdict(rows) }},
		check{ofExposed, false, func() Verdict { return e.inFrameVerdict(rows) }})
	out = append(out, e.paced(rows)...)
	out = append(out, check{ofShutter, false, e.angleVerdict})
	for _, i := range e.stepped() {
		out = append(out, check{ofView | ofPlay, false, func() Verdict { return e.backlashVerdict(i) }})
	}
	out = append(out,
		// A pull keeps its own times, and a hand is as late in a longer loop.
		check{ofExposed | ofIris, e.byHand(), func() Verdict { return e.focusVerdict(rows) }},
		check{ofFocus | ofIris | ofMotion, false, func() Verdict { return e.apertureVerdict(rows) }},
		check{ofFocus | ofIris | ofMotion | ofShutter | ofLight, false, func() Verdict { return e.exposureVerdict(rows) }},
		check{ofShutter | ofLight, false, e.flickerVerdict},
		check{ofLight, false, e.colourVerdict})
	if e.byHand() {
		out = append(out, check{ofExposed | ofIris, true, e.pullVerdict})
	}
	if e.fades {
		out = append(out, check{ofView | ofHoles | ofDark | e.lamped(), true, e.lightSeamVerdict})
	}
	if e.scene.Dark != nil {
		out = append(out, check{ofView | ofHoles | ofDark | e.lamped(), false, e.darkVerdict})
	}
	return out
}

// paced are the questions that the pace of the loop decides.
func (e *eye) paced(rows []Row) []check {
	out := []check{
		{ofExposed, true, func() Verdict { return e.smearVerdict(rows) }},
		{ofExposed, true, func() Verdict { return e.speedVerdict(rows) }},
	}
	for _, i := range e.stepped() {
		out = append(out, check{ofExposed, true, func() Verdict { return e.stepsVerdict(i, rows) }})
	}
	return append(out, check{ofView | ofHoles | ofDark | e.lamped(), true, e.seamVerdict})
}

// lamped is what more decides whether the seam is dark where lamps may be down there.
func (e *eye) lamped() aspect {
	if e.fades {
		return ofLight | ofShutter | ofIris
	}
	return 0
}

func (c check) answer() Verdict {
	v := c.tell()
	v.Paced = c.paced
	return v
}

// answers are those of all checks, unless nobody waits for them any more.
func (e *eye) answers(checks []check) []Verdict {
	return list.Map(checks, func(c check) Verdict {
		if e.ended() {
			return Verdict{}
		}
		return c.answer()
	})
}
