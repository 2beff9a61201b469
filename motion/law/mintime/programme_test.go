package mintime

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp"
)

// cells of the linear programme. A jerk that changes only at their ends loses
// up to about 1/cells where the true one changes within.
const (
	cells     = 24
	lpSlack   = 0.06
	lpBetter  = 1e-6 // it bounds speed at the ends of cells only
	lpResidue = 1e-9
)

// TestStretchAgainstLinearProgramme: the lowest peak acceleration, and jerk, by
// a general optimiser (gonum's simplex) over all jerks constant in each of
// some cells, with the same limits.
func TestStretchAgainstLinearProgramme(t *testing.T) {
	legs := []struct {
		leg Leg
		sec float64
	}{
		{Leg{1, 0, 0, 2, 20, 100}, 1},
		{Leg{1, 0, 0, 1.4, 20, 100}, 1},
		{Leg{1, 1, 1.5, 3, 30, 200}, 0.6},
		{Leg{0, 1, 1, 3, 10, 60}, 1.6},
		{Leg{0.2, -0.5, 0.5, 1, 10, 60}, 1.5},
		{Leg{-0.4, 0, 1, 1.2, 10, 60}, 2},
	}
	for _, c := range legs {
		for _, aim := range []Aim{MinAcc, MinJerk} {
			m, err := c.leg.Stretch(c.sec, aim)
			require.NoError(t, err)
			got := m.Leg().Acc
			if aim == MinJerk {
				got = m.Leg().Jerk
			}
			want, err := newProgramme(c.leg, c.sec).lowest(aim)
			require.NoError(t, err)
			assert.LessOrEqual(t, got, want*(1+lpBetter), "%+v", c)
			assert.InEpsilon(t, want, got, lpSlack, "%+v", c)
		}
	}
}

// programme holds, as rows over the jerks of the cells, acceleration, speed and
// position at the end of each cell.
type programme struct {
	leg           Leg
	acc, vel, pos [cells][cells]float64
	sec           float64
}

func newProgramme(l Leg, sec float64) *programme {
	p := &programme{leg: l, sec: sec}
	h := sec / cells
	for k := range cells {
		for i := range k + 1 {
			after := float64(k-i) * h
			p.acc[k][i] = h
			p.vel[k][i] = h*h/2 + h*after
			p.pos[k][i] = h*h*h/6 + h*h/2*after + h*after*after/2
		}
	}
	return p
}

// lowest minimises the last variable, a bound on acceleration or jerk. Jerks
// are counted from minus their limit, so that no variable is below 0; every row
// that may not be exceeded has a slack.
func (p *programme) lowest(aim Aim) (float64, error) {
	last := cells - 1
	var rows [][]float64
	var right []float64
	row := func(jerks []float64, sign, value float64, aimed, slack bool) {
		r := make([]float64, cells+1)
		for i, f := range jerks {
			r[i] = sign * f
			value += sign * f * p.leg.Jerk
		}
		if aimed {
			r[cells] = -1
		}
		if slack {
			r = append(r, 1)
		}
		rows, right = append(rows, r), append(right, value)
	}
	both := func(jerks []float64, offset, limit float64, aimed bool) {
		if aimed {
			limit = 0
		}
		row(jerks, 1, limit-offset, aimed, true)
		row(jerks, -1, limit+offset, aimed, true)
	}
	for k := range cells {
		unit := make([]float64, cells)
		unit[k] = 1
		both(unit, 0, p.leg.Jerk, aim == MinJerk)
		if k < last {
			both(p.acc[k][:], 0, p.leg.Acc, aim == MinAcc)
			both(p.vel[k][:], p.leg.Start, p.leg.Speed, false)
		}
	}
	row(p.acc[last][:], 1, 0, false, false)
	row(p.vel[last][:], 1, p.leg.End-p.leg.Start, false, false)
	row(p.pos[last][:], 1, p.leg.Distance-p.leg.Start*p.sec, false, false)
	return solveProgramme(rows, right)
}

// solveProgramme gives each slack a column of its own.
func solveProgramme(rows [][]float64, right []float64) (float64, error) {
	columns := cells + 1 + len(rows) - 3
	a := mat.NewDense(len(rows), columns, nil)
	for i, r := range rows {
		for k, f := range r[:cells+1] {
			a.Set(i, k, f)
		}
		if len(r) > cells+1 {
			a.Set(i, cells+1+i, 1)
		}
	}
	c := make([]float64, columns)
	c[cells] = 1
	least, _, err := lp.Simplex(c, a, right, lpResidue, nil)
	return least, err
}

// TestGapAgainstLinearProgramme: inside a gap no jerk whatever covers the leg, not
// even with any acceleration; on both sides some does.
func TestGapAgainstLinearProgramme(t *testing.T) {
	l := Leg{Distance: 0.3, Start: 1, End: 1.2, Speed: 1.6, Acc: 1000, Jerk: 60}
	d, err := l.Possible()
	require.NoError(t, err)
	require.Greater(t, d.Until, d.Least*1.05)
	require.True(t, d.Gap())
	for _, c := range []struct {
		sec  float64
		able bool
	}{
		{d.Least * 0.98, false}, {(d.Least + d.Until) / 2, true},
		{d.Until * 1.05, false}, {(d.Until + d.Again) / 2, false}, {d.Again * 0.98, false},
		{d.Again * 1.05, true},
	} {
		_, err := newProgramme(l, c.sec).lowest(MinAcc)
		if c.able {
			assert.NoError(t, err, "%v s of %v", c.sec, d)
		} else {
			assert.ErrorIs(t, err, lp.ErrInfeasible, "%v s of %v", c.sec, d)
		}
	}
}
