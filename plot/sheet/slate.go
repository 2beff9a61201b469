package sheet

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"seamrail/plot/internal/style"
)

// Slate is what is held before the lens at the beginning of a take, so that whoever finds
// the recording knows which it is.
type Slate struct {
	Title string // of the clip
	Scene string // short: read from afar
	Shot  string
	Take  string   // "" for a blank to write on
	Lines []string // smaller: clock, frames, set-up
	Foot  string
}

// slatesAPage stand below each other, to be cut apart: each is as large as A5.
const slatesAPage = 2

// WriteSlates writes slates as one PDF. It returns an error without one, and when w fails.
func WriteSlates(w io.Writer, slates []Slate) error {
	if len(slates) == 0 {
		return errors.New("no slate to write: it takes a shot")
	}
	p := newPress()
	p.pdf.SetTitle(style.Written(slates[0].Title), true)
	high := (paperHeight - 2*margin) / slatesAPage
	for i, s := range slates {
		if i%slatesAPage == 0 {
			p.pdf.AddPage()
		}
		top := margin + float64(i%slatesAPage)*high
		if i%slatesAPage > 0 {
			p.rule(margin, top, margin+inner, top, 0.15, style.Rule)
		}
		p.slate(s, top+slateAir, high-2*slateAir)
	}
	if err := p.pdf.Output(w); err != nil {
		return fmt.Errorf("writing the slates: %w", err)
	}
	return nil
}

// The sizes of type of a slate, in points: the boxes read from across a table.
const (
	slateTitle = 17
	slateName  = 10
	slateBig   = 60
	slateLeast = 14
	slateLine  = 15
	slateAir   = 4.0  // mm around it
	slateBox   = 52.0 // mm, height of the boxes
	slateTake  = 44.0 // mm, width of the box of the take, and of that of the scene
)

func (p *press) slate(s Slate, y, high float64) {
	end := y + high
	title := lettering{slateTitle, true, style.Ink}
	p.line(margin, y, p.fitted(s.Title, inner, title), title)
	y += title.pitch() + 2
	middle := inner - 2*slateTake
	p.boxed(margin, y, slateTake, "scene", s.Scene)
	p.boxed(margin+slateTake, y, middle, "shot", s.Shot)
	p.boxed(margin+slateTake+middle, y, slateTake, "take", s.Take)
	y += slateBox + 4
	small := lettering{slateLine, false, style.Ink}
	muted := lettering{slateName, false, style.Muted}
	foot := end - muted.pitch()
	var lines []string
	for _, text := range s.Lines {
		lines = append(lines, p.wrap(text, inner, small)...)
	}
	p.lines(margin, y, few(lines, int((foot-9-y)/small.pitch())), small)
	p.line(margin, foot, s.Foot, muted)
	p.line(margin, foot-9, "date", muted)
	p.blank(margin+10, foot-9, 50, small)
	p.line(margin+65, foot-9, "clip", muted)
	p.blank(margin+74, foot-9, 46, small)
	p.line(margin+125, foot-9, "note", muted)
	p.blank(margin+135, foot-9, inner-135, small)
}

// few are the first n lines; what is left out is shown by dots.
func few(lines []string, n int) []string {
	if len(lines) <= n {
		return lines
	}
	out := slices.Clone(lines[:n])
	out[n-1] = strings.TrimSuffix(strings.TrimRight(out[n-1], " ,;."), " ...") + " ..."
	return out
}

// boxed sets a word in a box as large as it fits, with its name above it.
func (p *press) boxed(x, y, w float64, name, text string) {
	p.box(x, y, w, slateBox, 0.4, style.Ink)
	p.line(x+2, y+1.5, name, lettering{slateName, false, style.Muted})
	big := lettering{slateBig, true, style.Ink}
	for big.size > slateLeast && p.width(text, big) > w-6 {
		big.size--
	}
	text = p.fitted(text, w-6, big)
	p.line(x+(w-p.width(text, big))/2, y+slateBox/2-big.size*point/2+2, text, big)
}

// fitted is a text cut to a width.
func (p *press) fitted(text string, w float64, s lettering) string {
	letters := []rune(text)
	for len(letters) > 1 && p.width(string(letters), s) > w {
		letters = letters[:len(letters)-1]
	}
	return string(letters)
}
