package pace

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// laid is a plan laid at a place, with the change that it makes.
type laid struct {
	track
	change
	model  model
	zero   float64 // the frame that shows frame 0
	slower float64 // the share by which the take is slower
	share  []float64
	want   []float64 // the squares of the changes that are expected
	rest   float64   // scatter of the logarithm of a change in which nothing moves
	moves  float64   // and of one in which all is motion
	rows   []float64 // the terms of every so manieth frame
	every  int
	// typical is by how much two frames differ that have nothing to do with each other, squared.
	typical float64
}

// planned is the planned frame that a frame shows.
func (l *laid) planned(frame float64) float64 { return (frame - l.zero) / (1 + l.slower) }

// biweight is the constant at which the biweight is as good as least squares to 95 % where chance
// is normal (A. E. Beaton and J. W. Tukey, Technometrics 16:147-185, 1974,
// DOI 10.1080/00401706.1974.10489171).
const biweight = 4.685

// rho is the cost of a residual in scatters, about half its square, at most that of an outlier.
func rho(r float64) float64 {
	v := r / biweight
	if v = 1 - v*v; v <= 0 {
		return biweight * biweight / 6
	}
	return biweight * biweight / 6 * (1 - v*v*v)
}

func weigh(r float64) float64 {
	v := r / biweight
	v = max(0, 1-v*v)
	return v * v
}

// scatter is that of change k: of noise as far as its change is noise, of the gain otherwise.
func (l *laid) scatter(k int) float64 {
	still := min(max(l.share[0], 0)/l.want[k], 1)
	return math.Sqrt(still*l.rest*l.rest + (1-still)*l.moves*l.moves)
}

const (
	// startScatter is that with which a fit begins: a gain that differs by half.
	startScatter = 0.5
	// leastScatter is that of a mean of a thousand squares of noise, which a sketch has.
	leastScatter = 0.045
	// reweighs is how often weights are found anew; more change nothing in the third digit.
	reweighs = 4
	// belowAll is the part of the quietest change below which no expectation goes.
	belowAll = 0.5
)

// build fills in the terms of every so manieth frame at this place.
func (l *laid) build(every int) {
	p := l.unknowns(l.model)
	l.rows, l.every = l.rows[:0], every
	row := make([]float64, 0, p)
	for k := 0; k < len(l.y); k += every {
		row = l.terms(l.model, l.planned(float64(l.from[k])), l.planned(float64(l.to[k])), row)
		l.rows = append(l.rows, row...)
	}
	if len(l.want) != len(l.y) {
		l.want = make([]float64, len(l.y))
	}
}

// solve finds the shares, by weighted least squares of the squares, and fills in what is expected
// with them.
func (l *laid) solve(weight func(k int) float64) {
	p := l.unknowns(l.model)
	normal, right := make([]float64, p*p), make([]float64, p)
	rows := l.rows
	for k := 0; k < len(l.y); k += l.every {
		row := rows[:p]
		rows = rows[p:]
		w := weight(k)
		if w == 0 {
			continue
		}
		for i, a := range row {
			a *= w
			right[i] += a * l.y[k]
			into := normal[i*p : i*p+i+1]
			for j, b := range row[:i+1] {
				into[j] += a * b
			}
		}
	}
	l.share = solved(normal, right)
	l.expect()
}

// solved solves normal equations of which the lower half is given; what never shows is nothing.
func solved(normal, right []float64) []float64 {
	p := len(right)
	sym := mat.NewSymDense(p, nil)
	for i := range p {
		for j := range i + 1 {
			sym.SetSym(i, j, normal[i*p+j])
		}
	}
	e, ok := factored(sym)
	if !ok {
		return make([]float64, p)
	}
	return e.solve(right)
}

// expect fills in the changes that are expected.
func (l *laid) expect() {
	p, rows := len(l.share), l.rows
	for k := 0; k < len(l.y); k += l.every {
		l.want[k] = l.sum(rows[:p])
		rows = rows[p:]
	}
}

// sum is the change that is expected of terms.
func (l *laid) sum(row []float64) (sum float64) {
	for i, v := range row {
		sum += v * l.share[i]
	}
	return max(sum, belowAll*l.quiet, belowAll*l.share[0])
}

// expected is the change from one planned frame to another, at any place.
func (l *laid) expected(from, to float64) float64 {
	var room [64]float64
	return l.sum(l.terms(l.model, from, to, room[:]))
}

// off is by how much the logarithm of a change differs from what is expected.
func (l *laid) off(k int) float64 { return l.log[k] - math.Log(l.want[k]) }

// cost is the sum of rho over the frames.
func (l *laid) cost(every int) (sum float64) {
	for k := 0; k < len(l.y); k += every {
		sum += rho(l.off(k) / l.scatter(k))
	}
	return sum
}

// rough fits quickly, with weights of the film alone.
func (l *laid) rough(every int) float64 {
	l.rest, l.moves = startScatter, startScatter
	l.build(every)
	l.start()
	return l.cost(every)
}

func (l *laid) start() {
	l.solve(func(k int) float64 { return 1 / (l.smooth[k] * l.smooth[k]) })
}

// fit fits well: weights of what is expected and of what is left over. The scatters stay.
func (l *laid) fit() float64 {
	l.build(1)
	times := reweighs
	if len(l.share) != l.unknowns(l.model) {
		l.start()
	} else {
		l.expect()
		times /= 2 // it was fitted nearby
	}
	for range times {
		l.solve(func(k int) float64 {
			s := l.want[k] * l.scatter(k)
			return weigh(l.off(k)/l.scatter(k)) / (s * s)
		})
	}
	return l.cost(1)
}

// scatters finds both scatters of what is left over.
func (l *laid) scatters() {
	var still, moving []float64
	for k := range l.y {
		if l.want[k] < 2*l.share[0] {
			still = append(still, math.Abs(l.off(k)))
		} else {
			moving = append(moving, math.Abs(l.off(k)))
		}
	}
	// 1.4826 makes the middle of absolute values the sigma of a normal.
	l.rest, l.moves = max(leastScatter, 1.4826*middle(still)), max(leastScatter, 1.4826*middle(moving))
	if len(still) == 0 {
		l.rest = l.moves
	}
}

// copied may be laid elsewhere, and the first stays.
func (l *laid) copied() *laid {
	c := *l
	c.rows = nil
	c.share, c.want = append([]float64(nil), l.share...), append([]float64(nil), l.want...)
	return &c
}
