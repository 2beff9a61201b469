package sheet

import "slices"

// band is a strip across the page: blocks below each other, or in two columns.
type band struct {
	left, right []block
	split       float64 // mm of the left column; 0 is one column
	anywhere    bool    // it may fill what another leaves of an earlier page
}

// columnGap is between two columns, in mm.
const columnGap = 4.0

func (b band) height(p *press) float64 {
	if b.split == 0 {
		return stacked(p, b.left, inner)
	}
	return max(stacked(p, b.left, b.split), stacked(p, b.right, inner-b.split-columnGap))
}

func stacked(p *press, blocks []block, w float64) float64 {
	h := 0.0
	for k, b := range blocks {
		if k > 0 {
			h += gap
		}
		h += b.height(p, w)
	}
	return h
}

func (b band) draw(p *press, y float64) error {
	if b.split == 0 {
		return stack(p, b.left, margin, y, inner)
	}
	if err := stack(p, b.left, margin, y, b.split); err != nil {
		return err
	}
	return stack(p, b.right, margin+b.split+columnGap, y, inner-b.split-columnGap)
}

func stack(p *press, blocks []block, x, y, w float64) error {
	for _, b := range blocks {
		if err := b.draw(p, x, y, w); err != nil {
			return err
		}
		y += b.height(p, w) + gap
	}
	return nil
}

// parts are the blocks of a sheet.
type parts struct {
	groups             []block
	above, curves, low block // low are the curves, lower
	stills, cautions   block
	presses            []band // in parts that go on a page, as those below
	fails, tape        []band
	lamps, moves, cues []band // tables, in parts that go on a page
	dimmers, focus     []band
	ring               []band
	marks, warned      []band
	takes              takes
}

func partsOf(d Page) (parts, error) {
	p := newPress() // its type is of the size that several pages have
	out := parts{above: newInset(d), stills: stills{d.Stills, plainly("", "", d.StillNotes)},
		cautions: plainly(cautionsName, "!", d.Cautions), takes: takes(d.Takes),
		lamps: p.parts(d.Lamps), dimmers: p.parts(d.Dimmers), focus: p.parts(d.Focus), ring: d.Ring.bands(), marks: p.parts(d.Marks), moves: p.parts(d.Moves), cues: p.parts(d.Cues),
		warned: fillers(p.split(plainly(cautionsName, "!", d.Cautions))), presses: p.split(plainly(pressesName, "", d.Presses)), fails: p.split(plainly(failsName, "·", d.Fails)), tape: p.split(plainly(tapeName, "·", d.Tape))}
	for _, g := range d.Groups {
		out.groups = append(out.groups, g)
	}
	var err error
	if out.curves, err = newDrawn(d.Positions, plotPanel); err == nil {
		out.low, err = newDrawn(d.Positions, plotLow)
	}
	return out, err
}

// sparing is what is made smaller so that all goes on one page: lower curves, boxes for
// fewer takes.
type sparing struct{ low, few bool }

// sparings are tried in this order.
var sparings = []sparing{{}, {low: true}, {few: true}, {true, true}}

// fewTakes is how many takes a day has boxes for at least.
const fewTakes = 5

func (s parts) sparing(how sparing) parts {
	if how.low {
		s.curves = s.low
	}
	if how.few {
		s.takes = min(s.takes, fewTakes)
	}
	return s
}

// sides says in which column the cautions and the takes are.
type sides struct{ cautions, takes bool } // true is right

// onePage is everything in two columns below the strip: what is set at the left,
// what is drawn and timed at the right. Cautions and takes go where they make the
// page the lowest.
func (s parts) onePage(p *press, d Page) ([]band, sides) {
	var best []band
	var at sides
	for _, try := range []sides{{}, {cautions: true}, {takes: true}, {true, true}} {
		bands := s.columns(d, try)
		if best == nil || bands[len(bands)-1].height(p) < best[len(best)-1].height(p) {
			best, at = bands, try
		}
	}
	return best, at
}

func (s parts) columns(d Page, at sides) []band {
	body := band{split: leftWidth, left: slices.Concat(s.groups, blocksOf(s.marks)), right: []block{s.above}}
	if d.Above != nil {
		body.right = append(body.right, d.key())
	}
	body.right = slices.Concat(body.right, blocksOf(s.lamps), blocksOf(s.dimmers), blocksOf(s.focus), []block{s.curves}, blocksOf(s.moves), blocksOf(s.cues))
	add := func(b block, right bool) {
		if right {
			body.right = append(body.right, b)
		} else {
			body.left = append(body.left, b)
		}
	}
	if len(d.Cautions) > 0 {
		add(s.cautions, at.cautions)
	}
	if d.Takes > 0 {
		add(s.takes, at.takes)
	}
	return append(s.top(d), body)
}

// top is what is pressed, what does not hold, the marks to make, and the strip.
func (s parts) top(d Page) []band {
	return slices.Concat(s.presses, s.fails, s.tape, s.ring, s.strip(d))
}

// strip is the stills, or why there are none where that is told.
func (s parts) strip(d Page) []band {
	if len(d.Stills) == 0 {
		if len(d.StillNotes) == 0 {
			return nil
		}
		return []band{{left: []block{plainly(stillsName, "", d.StillNotes)}}}
	}
	return []band{{left: []block{s.stills}}}
}

func blocksOf(bands []band) []block {
	var out []block
	for _, b := range bands {
		out = append(out, b.left...)
	}
	return out
}

// pages is everything in bands that go over as many pages as they need.
func (s parts) pages(d Page) []band {
	top := band{split: leftWidth, left: s.groups, right: []block{s.above}}
	var below []band
	if d.Above != nil {
		if key := d.key(); key.height(newPress(), insetWidth) < keyHigh {
			top.right = append(top.right, key)
		} else {
			below = newPress().split(key)
		}
	}
	out := slices.Concat(s.top(d), []band{top}, below, s.lamps, s.dimmers, s.focus, []band{{left: []block{s.curves}}}, s.marks, s.moves, s.cues, s.warned)
	if d.Takes > 0 {
		out = append(out, band{left: []block{s.takes}, anywhere: true})
	}
	return out
}

// fillers are bands that may fill gaps, where they are whole: parts keep together.
func fillers(bands []band) []band {
	if len(bands) == 1 {
		bands[0].anywhere = true
	}
	return bands
}

// leftWidth is the left of two columns, in mm.
const leftWidth = inner - insetWidth - columnGap

// keyHigh is how high, in mm, the key of the scene may be beside the settings.
const keyHigh = 60.0

// key tells what the letters in the scene stand for.
func (d Page) key() paragraphs {
	var out paragraphs
	for _, n := range d.Above.Notes() {
		out.texts = append(out.texts, paragraph{n.Letter, n.Words})
	}
	return out
}

const (
	cautionsName = "Before anything moves"
	failsName    = "What does not hold, and what is not known"
)
