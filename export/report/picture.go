package report

import (
	"seamrail/export/picturewords"
	"seamrail/motion/camera/picture"
)

// picture tells what the move does to the picture: a verdict a check, the
// numbers beside it and what would help; then what was taken for granted and
// what a number more would tell.
func (p *page) picture(r *picture.Report) {
	if r == nil {
		return
	}
	p.Section("PICTURE")
	p.Field("in all", picturewords.Summary(*r))
	for _, v := range r.Verdicts {
		// What is not known at all is told once, by the numbers it wants.
		if v.Level != picture.Unknown || len(v.Figures) > 0 {
			picturewords.Print(&p.Page, v)
		}
	}
	if own := picturewords.OwnBounds(*r); own != "" {
		p.Field("bounds", "the shot's own: "+own+"; the rest are the usual")
	}
	for _, a := range r.Assumed {
		p.Field("taken", clean(a))
	}
	if lacks := picturewords.Lacks(*r); len(lacks) > 0 {
		p.Inked(dim, "would tell", picturewords.LackWords(lacks))
	}
}

// others tells the verdicts that are none of the picture's.
func (p *page) others(all []picture.Verdict) {
	if len(all) == 0 {
		return
	}
	p.Section("OTHER CHECKS")
	for _, v := range all {
		picturewords.Print(&p.Page, v)
	}
}

func pictureOf(r *picture.Report) *picturewords.Document {
	if r == nil {
		return nil
	}
	return picturewords.DocumentOf(*r)
}

// collisions lists what would strike the lens.
func (p *page) collisions(r *picture.Report) {
	if r == nil {
		return
	}
	for _, v := range r.Verdicts {
		if v.Level == picture.Block {
			p.Bullet(red, "x", clean(v.Check+": "+v.Text))
		}
	}
}
