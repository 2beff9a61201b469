package planreport

import (
	"seamrail/export/report"
	"seamrail/export/report/picturereport"
	"seamrail/motion/camera/picture"
)

// picture tells what the move does to the picture: a verdict a check, the
// numbers beside it and what would help; then what was taken for granted and
// what a number more would tell. The verdicts that are none of the picture's
// come first.
func (p *page) picture() {
	p.Named("other-checks", "OTHER CHECKS")
	for _, v := range p.d.Others {
		picturereport.Tell(&p.Report, v)
	}
	r := p.d.Picture
	if r == nil {
		return
	}
	p.Section("PICTURE")
	p.Field("in all", picturereport.Summary(*r))
	for _, v := range r.Verdicts {
		if !lacking(v) {
			picturereport.Tell(&p.Report, v)
		}
	}
	if own := picturereport.OwnBounds(*r); own != "" {
		p.Field("bounds", "the shot's own: "+own+"; the rest are the usual")
	}
	for _, a := range r.Assumed {
		p.Field("taken", a)
	}
	p.Toned(report.Dim, "would tell", picturereport.Lacks(*r))
}

// lacking tells of a verdict on the picture that it is not known at all: that is told
// once, by the numbers it wants.
func lacking(v picture.Verdict) bool { return v.Level == picture.Unknown && len(v.Figures) == 0 }
