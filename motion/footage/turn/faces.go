package turn

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

const (
	// surely is how many standard uncertainties of eight parts one return must be liker than
	// another where footage has one full turn; where it has two, first is for the one and
	// second for the other: by chance both are as rare.
	surely, first, second = 5.0, 4.0, 2.0
	// offGrid is what a return that falls between two frames may seem more unlike for that,
	// as a share of what half a frame makes; the polynomial leaves less.
	offGrid = 0.1
	// between is how much liker at faces than halfway between them a picture is whose faces
	// differ too much to be returns.
	between = 0.7
)

// faces tells what a full turn is.
func (m *measuring) faces(q Question) Turn {
	if q.Faces > 0 {
		return Turn{Faces: q.Faces, Told: true}
	}
	n := 1
	for more := m.fuller(n); more > 1; more = m.fuller(n) {
		n *= more
	}
	hidden := m.hidden(n)
	if split := m.course.shallow(m.repeat*float64(n), n); split > 1 {
		m.split(split)
		n *= split
	}
	return Turn{Faces: n, Told: n > 1, Hidden: hidden}
}

// fuller is after how many of every n-th return the picture is more alike than at those
// between: panes light and dark by turns come again every second, and wholly every sixth.
// 1 is none.
func (m *measuring) fuller(n int) int {
	var every []seen
	for k := n; k <= len(m.first); k += n {
		every = append(every, m.first[k-1])
	}
	for by := 2; by <= len(every) && n*by <= mostFaces; by++ {
		if stands(every, by) {
			return by
		}
	}
	return 1
}

// stands tells whether each of the first two full turns, if there are two, is liker than all
// returns before it that are none.
func stands(every []seen, by int) bool {
	sure := []float64{surely}
	if len(every) >= 2*by {
		sure = []float64{first, second}
	}
	for k := range by * len(sure) {
		full := every[k/by*by+by-1]
		if (k+1)%by != 0 && !liker(full, every[k], sure[k/by]) {
			return false
		}
	}
	return true
}

// shallow is in how many faces each n-th of a turn falls that are somewhat like each other,
// too little for a return: the most at which frames are liker at faces than halfway between
// them. 1 is none.
func (c course) shallow(turn float64, n int) int {
	for by := mostFaces / n; by > 1; by-- {
		if face := turn / float64(n*by); face >= 2*leastRepeat && c.at(face, n*by, 0) < between*c.at(face, n*by, 0.5) {
			return by
		}
	}
	return 1
}

// at is how unlike frames are on average at lags of faces of a turn, or beside them by a share
// of a face; the full turn is none.
func (c course) at(face float64, faces int, beside float64) float64 {
	sum, count := 0.0, 0.0
	for k := range faces {
		lag := int(math.Round((float64(k) + beside) * face))
		if lag > 0 && lag < len(c.unlike) {
			sum, count = sum+c.unlike[lag], count+1
		}
	}
	return sum / max(1, count)
}

// split counts returns by faces, each n to what was one.
func (m *measuring) split(n int) {
	m.repeat /= float64(n)
	for k := range m.first {
		m.first[k].times *= n
	}
}

// liker tells whether return a is liker than b by so many standard uncertainties.
func liker(a, b seen, sure float64) bool {
	doubt, ok := gapDoubt(a, b)
	return ok && b.unlike-a.unlike > max(sure*doubt, grid(a, b))
}

// grid is what b may seem more unlike than a for falling between two frames: half of the bend
// times half a frame squared, and of that a share.
func grid(a, b seen) float64 { return offGrid * max(a.bend, b.bend) / 8 }

// gapDoubt is how sure the difference of two returns is, from its parts; false where most of
// these tell nothing.
func gapDoubt(a, b seen) (float64, bool) {
	var gaps []float64
	for g := range a.parts {
		if d := b.parts[g] - a.parts[g]; !math.IsNaN(d) {
			gaps = append(gaps, d)
		}
	}
	if len(gaps) <= groups/2 {
		return 0, false
	}
	return stat.StdDev(gaps, nil) / math.Sqrt(float64(len(gaps))), true
}

// hidden is by how much faces n apart may differ and not be told, as a share of what any two
// frames differ by; 1 where the footage has no two such returns.
func (m *measuring) hidden(n int) float64 {
	most := 0.0
	for k := 2*n - 1; k < len(m.first); k += n {
		a, b := m.first[k], m.first[n-1]
		doubt, ok := gapDoubt(a, b)
		if !ok {
			break
		}
		most = max(most, surely*doubt, grid(a, b))
	}
	if most == 0 {
		return 1
	}
	return min(1, most/m.course.typical)
}
