package sequence

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/export/header"
	"seamrail/motion/base/clock"
	"seamrail/motion/base/exact"
	"seamrail/motion/base/plain"
	"seamrail/motion/camera/picture"
	"seamrail/motion/edit/sequence"
	"seamrail/plot/chart/clipplot"
)

// stripOf is what the strip of a clip shows.
func stripOf(c *sequence.Clip) (clipplot.Data, error) {
	d := clipplot.Data{
		Title: header.Clean(c.Title),
		Lines: []string{fmt.Sprintf("%s, %s s at %s frames/s; %s to %s", plain.Count(int(c.Frames), "frame"),
			c.OnScreen().Decimal(3), clock.RateText(c.Playback), c.Label(0), c.Label(c.Frames-1))},
	}
	turn := make([]int, len(c.Films))
	for i, n := range c.Order.Order {
		turn[n] = i + 1
	}
	for i, p := range c.Pieces {
		film := c.Films[p.Film]
		d.Blocks = append(d.Blocks, clipplot.Block{
			Name: header.Clean(p.Shot.Title), Label: c.Label(p.Start), Frames: p.Frames, Hue: p.Film, Turn: turn[p.Film],
			Start: onScreen(c, p.Start), End: onScreen(c, p.Start+p.Frames),
			Rig: numberOf(&d.Rigs, header.Clean(film.Setup.Rig)), Light: numberOf(&d.Lights, header.Clean(film.Setup.Light)),
		})
		d.Cuts = append(d.Cuts, clipplot.Cut{Mark: markOf(c.Cuts[i].Momentum), Words: cutWords(c.Cuts[i])})
	}
	var err error
	d.Panels, err = stripPanels(c)
	if blind := unseen(c); blind != "" {
		d.Lines = append(d.Lines, blind)
	}
	return d, err
}

// unseen names the shots whose picture is not known, where that of others is:
// their curves are missing.
func unseen(c *sequence.Clip) string {
	var numbers []string
	for i, x := range c.Cuts {
		if x.Out.Flow == nil {
			numbers = append(numbers, fmt.Sprint(i+1))
		}
	}
	if len(numbers) == 0 || len(numbers) == len(c.Pieces) {
		return ""
	}
	return "how the picture moves is not known of shot " + strings.Join(numbers, ", ")
}

func onScreen(c *sequence.Clip, frame int64) float64 { return exact.Int(frame).Quo(c.Playback).Float() }

// numberOf is where a text is in a list, to which it is added if it is not.
func numberOf(list *[]string, text string) int {
	if i := slices.Index(*list, text); i >= 0 {
		return i
	}
	*list = append(*list, text)
	return len(*list) - 1
}

func markOf(m sequence.Momentum) clipplot.Mark {
	switch m {
	case sequence.Continuous:
		return clipplot.Whole
	case sequence.Rests, sequence.Carries:
		return clipplot.Easy
	case sequence.Faster, sequence.Slower, sequence.SetsOff, sequence.Stops:
		return clipplot.Change
	case sequence.Turns, sequence.Reverses:
		return clipplot.Break
	}
	return clipplot.Unsaid
}

func cutWords(c sequence.Cut) string {
	where := fmt.Sprintf("%d to %d", c.From+1, c.To+1)
	if c.To == 0 {
		where += ", the clip's loop"
	}
	return where + ": " + c.Momentum.String()
}

// stripPanels draws the picture's motion where any shot has one, and else the
// axes, one panel for each of their units.
func stripPanels(c *sequence.Clip) ([]clipplot.Panel, error) {
	seen := newPanel("how the picture moves, picture widths per on-screen second", "right", "up", "growing")
	slides := newPanel("how fast the axes go, mm per on-screen second")
	turns := newPanel("how fast the axes go, degrees per on-screen second")
	for _, p := range c.Pieces {
		samples, err := p.Samples()
		if err != nil {
			return nil, err
		}
		for _, s := range samples {
			at := onScreen(c, p.Start+s.Frame)
			seen.flow(at, s.Flow)
			slides.axes(at, s.Axes, "mm")
			turns.axes(at, s.Axes, "deg")
		}
		seen.close()
		slides.close()
		turns.close()
	}
	if !seen.empty() {
		return []clipplot.Panel{seen.Panel}, nil
	}
	var out []clipplot.Panel
	for _, p := range []*panelMaker{slides, turns} {
		if !p.empty() {
			out = append(out, p.Panel)
		}
	}
	return out, nil
}

// panelMaker gathers curves piece by piece.
type panelMaker struct {
	clipplot.Panel
	open map[string]*clipplot.Part
}

func newPanel(title string, names ...string) *panelMaker {
	p := &panelMaker{clipplot.Panel{Title: title}, map[string]*clipplot.Part{}}
	for _, n := range names {
		p.Curves = append(p.Curves, clipplot.Curve{Name: n})
	}
	return p
}

func (p *panelMaker) add(name string, at, value float64) {
	part := p.open[name]
	if part == nil {
		part = &clipplot.Part{}
		p.open[name] = part
		if !slices.ContainsFunc(p.Curves, func(c clipplot.Curve) bool { return c.Name == name }) {
			p.Curves = append(p.Curves, clipplot.Curve{Name: name})
		}
	}
	part.Seconds, part.Values = append(part.Seconds, at), append(part.Values, value)
}

func (p *panelMaker) flow(at float64, f *picture.Flow) {
	if f == nil {
		return
	}
	p.add("right", at, f.Right)
	p.add("up", at, f.Up)
	p.add("growing", at, f.Toward)
}

// axes adds those of one unit.
func (p *panelMaker) axes(at float64, axes []sequence.AxisSpeed, unit string) {
	for _, a := range axes {
		if a.Unit == unit {
			p.add(a.Axis, at, a.Speed)
		}
	}
}

// close ends what is open at a cut.
func (p *panelMaker) close() {
	for i := range p.Curves {
		if part := p.open[p.Curves[i].Name]; part != nil {
			p.Curves[i].Parts = append(p.Curves[i].Parts, *part)
		}
	}
	clear(p.open)
}

func (p *panelMaker) empty() bool {
	return !slices.ContainsFunc(p.Curves, func(c clipplot.Curve) bool { return len(c.Parts) > 0 })
}
