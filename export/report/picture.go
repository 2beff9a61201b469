package report

import (
	"seamrail/export/picturewords"
	"seamrail/motion/picture"
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

// pictureWords is what the verdict on the plan adds about its picture.
func (o Options) pictureWords() string {
	if o.Picture == nil {
		return ""
	}
	poor := picturewords.At(*o.Picture, picture.Poor)
	if len(poor) == 0 {
		return ""
	}
	return " The picture will not look right in " + counted(int64(len(poor)), "point") + ": " + clean(list(poor)) + "."
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
