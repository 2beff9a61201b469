package preview

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// The product is engraved: a hairline every millimetre up from the foot, out from the
// middle of each face and in from the edge of its top, a broader one every ten. A lens
// that sees a thumb's breadth of a pane sees by them how it moves and smears.

// engraveStep is from one hairline to the next, in mm; every coarseEvery-th is broad.
const (
	engraveStep = 1.0
	coarseEvery = 10
)

// How wide the lines are, in mm: a hairline of a graver, and three.
const (
	fineWide   = 0.08
	coarseWide = 0.24
)

// Lines fade where the picture has no room for them: fainter than nothing where the
// next one is fadedAt px away, which is above the two that a period takes so as not
// to make a false one (sampling, Shannon 1949), in full from clearAt px on.
const (
	fadedAt = 3.0
	clearAt = 7.0
)

// Coarse lines come in later for their distance: by themselves they tell little, and
// a product that is seen as a whole needs none.
const (
	coarseFadedAt = 24.0
	coarseClearAt = 60.0
)

// engraveStrength is how much of what is below a line takes away.
const engraveStrength = 0.45

// engraveLevels is in how many strengths lines are drawn: no step between two shows.
const engraveLevels = 6

// maxEngraved bounds the lines of a side: a product of metres is seen from so far
// that none shows.
const maxEngraved = 20_000

// score is one engraved line, or a flat piece of it.
type score struct {
	contour    []r3.Vec
	at         r3.Vec // its middle
	next       r3.Vec // the same of the line beside it that is as broad
	normal     r3.Vec
	from, full float64 // px to the next one at which it begins to show, and does in full
}

// engraved are the lines of a patch between two heights.
func (p patch) engraved(low, high float64) []score {
	if p.width/engraveStep*float64(p.pieces)+(high-low)/engraveStep*float64(p.pieces) > maxEngraved {
		return nil
	}
	var out []score
	half := int(p.width / 2 / engraveStep)
	for k := -half; k <= half; k++ {
		out = p.upright(out, k, low, high)
	}
	for k := 1; float64(k)*engraveStep < high-low; k++ {
		out = p.level(out, k, low)
	}
	return out
}

// newScore is a line whose neighbours are every so many mm along a way.
func newScore(k int, contour []r3.Vec, at, way, normal r3.Vec) score {
	s := score{contour: contour, at: at, next: r3.Add(at, r3.Scale(engraveStep, way)), normal: normal, from: fadedAt, full: clearAt}
	if k%coarseEvery == 0 {
		s.next = r3.Add(at, r3.Scale(coarseEvery*engraveStep, way))
		s.from, s.full = coarseFadedAt, coarseClearAt
	}
	return s
}

func scoreWide(k int) float64 {
	if k%coarseEvery == 0 {
		return coarseWide
	}
	return fineWide
}

// upright adds the line so many steps right of the middle.
func (p patch) upright(out []score, k int, low, high float64) []score {
	t, half := 0.5+float64(k)*engraveStep/p.width, scoreWide(k)/2/p.width
	if t-half < 0 || t+half > 1 {
		return out
	}
	a, b, n := p.at(t-half), p.at(t+half), p.normal(t)
	up := func(q r2.Vec, z float64) r3.Vec { return r3.Vec{X: q.X, Y: q.Y, Z: z} }
	way := r3.Unit(up(r2.Sub(b, a), 0))
	return append(out, newScore(k, []r3.Vec{up(a, low), up(b, low), up(b, high), up(a, high)}, up(p.at(t), (low+high)/2), way, up(n, 0)))
}

// level adds the line so many steps above the foot, piece by piece.
func (p patch) level(out []score, k int, low float64) []score {
	z, half := low+float64(k)*engraveStep, scoreWide(k)/2
	for _, piece := range p.cut(0, 1, z-half, z+half, ink, false) {
		c := piece.contours[0]
		middle := r3.Scale(0.25, r3.Add(r3.Add(c[0], c[1]), r3.Add(c[2], c[3])))
		out = append(out, newScore(k, c, middle, r3.Vec{Z: 1}, piece.normal))
	}
	return out
}

// engravings are the lines of each side of a product, and after them those of its top.
func engravings(around []patch, low, high float64) [][]score {
	out := make([][]score, len(around)+1)
	for i, face := range around {
		out[i] = face.engraved(low, high)
	}
	out[len(around)] = rings(lid(around, high, 1, ink).contours[0])
	return out
}

// rings are the lines of a top: outlines within its outline, a step apart where that
// is nearest to the middle, so that they turn into themselves as it does.
func rings(outline []r3.Vec) []score {
	middle := r3.Vec{}
	for _, p := range outline {
		middle = r3.Add(middle, r3.Scale(1/float64(len(outline)), p))
	}
	inner := math.Inf(1)
	for i, a := range outline {
		half := r3.Scale(0.5, r3.Add(a, outline[(i+1)%len(outline)]))
		inner = math.Min(inner, r3.Norm(r3.Sub(half, middle)))
	}
	if inner/engraveStep*float64(len(outline)) > maxEngraved {
		return nil
	}
	in := func(p r3.Vec, by float64) r3.Vec { return r3.Add(middle, r3.Scale(1-by/inner, r3.Sub(p, middle))) }
	var out []score
	for k := 1; float64(k)*engraveStep < inner; k++ {
		by, half := float64(k)*engraveStep, scoreWide(k)/2
		for i, a := range outline {
			b := outline[(i+1)%len(outline)]
			at := in(r3.Scale(0.5, r3.Add(a, b)), by)
			way := r3.Unit(r3.Sub(middle, at))
			out = append(out, newScore(k, []r3.Vec{in(a, by-half), in(b, by-half), in(b, by+half), in(a, by+half)}, at, way, r3.Vec{Z: 1}))
		}
	}
	return out
}

// scored is a line that shows in the frame in hand, and how strongly.
type scored struct {
	side, line, level int
}

// seenScores finds the lines that show in a frame, as they do half-way through the
// exposure: all of its pictures draw the same.
func (m *room) seenScores(e *eye) {
	m.eye = *e
	m.scores = m.scores[:0]
	for i, side := range m.set.solid.engraved {
		for k := range side {
			if level := m.level(&side[k]); level > 0 {
				m.scores = append(m.scores, scored{i, k, level})
			}
		}
	}
	slices.SortFunc(m.scores, func(a, b scored) int {
		return cmp.Or(cmp.Compare(a.side, b.side), cmp.Compare(a.level, b.level), cmp.Compare(a.line, b.line))
	})
}

// level is how strongly a line shows, 0 for not at all.
func (m *room) level(s *score) int {
	at := m.eye.turned(s.at)
	if !m.faces(at, m.eye.turned(s.normal)) {
		return 0
	}
	p, q := m.eye.local(at), m.eye.local(m.eye.turned(s.next))
	if p.Z < nearest || q.Z < nearest {
		return 0
	}
	a, b := m.eye.spot(p), m.eye.spot(q)
	apart := math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	share := math.Min(1, (apart-s.from)/(s.full-s.from))
	if share <= 0 || !m.near(s) {
		return 0
	}
	return int(math.Ceil(share * engraveLevels))
}

// farScores is what share of the picture's width beyond its edge a line is drawn: one
// that blur or smear brings in from farther is too faint to see.
const farScores = 4

// near tells whether some of a line may come into the picture: it does not lie beyond
// one side of it.
func (m *room) near(s *score) bool {
	reach := float32(m.wide) / farScores
	var left, right, above, below bool
	for _, c := range s.contour {
		q := m.eye.local(m.eye.turned(c))
		if q.Z < nearest {
			return true
		}
		p := m.eye.spot(q)
		left, right = left || p.X > -reach, right || p.X < float32(m.wide)+reach
		above, below = above || p.Y > -reach, below || p.Y < float32(m.high)+reach
	}
	return left && right && above && below
}

// engrave draws the lines of a side that show, those of one strength at once.
func (m *room) engrave(side int) {
	from, _ := slices.BinarySearchFunc(m.scores, side, func(s scored, side int) int { return cmp.Compare(s.side, side) })
	for from < len(m.scores) && m.scores[from].side == side {
		first := m.scores[from]
		m.begin()
		for ; from < len(m.scores) && m.scores[from].side == side && m.scores[from].level == first.level; from++ {
			m.addTurned(m.set.solid.engraved[side][m.scores[from].line].contour)
		}
		normal := m.set.solid.engraved[side][first.line].normal
		m.fill(ink.Times(m.set.lit(m.eye.turned(normal))), float32(engraveStrength*float64(first.level)/engraveLevels))
	}
}
