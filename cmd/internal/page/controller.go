package page

import (
	"net/http"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/controller/ontime"
	"seamrail/motion/plan/judge"
)

// Follows is what the rig's controller makes of a plan. Finding it takes longer
// than drawing, so it is asked for by itself, once nothing is being changed.
type Follows struct {
	Verdicts []Verdict `json:"verdicts"` // none where the plan must not be run anyway
	Headline Headline  `json:"headline"`
}

func (s *Server) controller(w http.ResponseWriter, r *http.Request) {
	var q struct {
		Text string `json:"text"`
	}
	if p, ok := s.planAsked(w, r, &q, &q.Text); ok {
		reply(w, http.StatusOK, followed(p.Headline(), p.Expected()))
	}
}

// followed is a headline and what is expected of the controller, nil for nothing.
func followed(h judge.Headline, x *ontime.Prediction) Follows {
	out := Follows{Verdicts: []Verdict{}, Headline: headlineOf(h, false)}
	if x != nil {
		out.Verdicts = onController(*x)
	}
	return out
}

// onController are the verdicts on the controller: what is expected of it or why
// it cannot follow, and what was taken for granted of it.
func onController(x ontime.Prediction) []Verdict {
	var out []Verdict
	if x.Follows() {
		out = append(out, Verdict{Level: good, Name: "controller", Text: strings.Join(header.Expected(x), "; "), Fits: []Fit{}})
	}
	for _, f := range x.Faults {
		v := Verdict{Level: bad, Name: "controller", Axis: f.Axis, Text: strings.Join(words(f.Quantity, f.Value, f.Bound, f.Where), " "), Fits: []Fit{}}
		if f.Fit != "" {
			v.Fits = append(v.Fits, Fit{f.Fit, []Set{}})
		}
		out = append(out, v)
	}
	for _, a := range x.Assumed {
		out = append(out, Verdict{Level: unknown, Name: a.Key, Text: "assumed " + a.Value + "; " + a.Cost, Fits: []Fit{}})
	}
	return out
}
