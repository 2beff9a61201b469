package sheet

// stills is a strip of what the lens sees.
type stills struct {
	strip []Still
	notes paragraphs
}

const stillsName = "What the lens sees"

// stillGap is between two stills, in mm.
const stillGap = 1.5

func (s stills) size(w float64) (width, height float64) {
	n := float64(len(s.strip))
	width = (w - stillGap*(n-1)) / n
	for _, one := range s.strip {
		b := one.Picture.Bounds()
		height = max(height, width*float64(b.Dy())/float64(b.Dx()))
	}
	return width, min(height, width*1.4) // an upright picture is narrower instead
}

func (s stills) height(p *press, w float64) float64 {
	_, h := s.size(w)
	return p.headHeight() + h + p.muted().pitch() + 0.6 + s.notes.height(p, w)
}

func (s stills) draw(p *press, x, y, w float64) error {
	left := x
	y = p.headed(x, y, w, stillsName)
	width, height := s.size(w)
	for _, one := range s.strip {
		b := one.Picture.Bounds()
		wide := min(width, height*float64(b.Dx())/float64(b.Dy()))
		if err := p.picture(x+(width-wide)/2, y, wide, wide*float64(b.Dy())/float64(b.Dx()), one.Picture); err != nil {
			return err
		}
		p.line(x, y+height+0.6, one.Label, p.muted())
		x += width + stillGap
	}
	return s.notes.draw(p, left, y+height+0.6+p.muted().pitch(), w)
}
