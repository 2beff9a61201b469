package verify

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/verify/trace"
)

// turning is the cosine of 48 frames in 2 s with a stand beside it, and places
// to break it.
type turning struct {
	cosine
	stand trace.Stand
	rate  exact.Rat // deg/s it really turns at
	slip  int64     // this frame finds it a degree too far
}

func (m turning) StandCount() int       { return 1 }
func (m turning) Stand(int) trace.Stand { return m.stand }

func (m turning) StandAngle(_ int, k int64) exact.Rat {
	at := exact.Int(17).Add(m.rate.Mul(m.FrameSeconds(k)))
	if k == m.slip && k > 0 {
		at = at.Add(exact.Int(1))
	}
	return at
}

// closing turns 59 degrees in 2 s, clockwise, under six faces of 60: it falls a
// degree short.
func closing() turning {
	rate := exact.New(-59, 2)
	return turning{cosine: sound(), rate: rate, stand: trace.Stand{
		Name: "display", Rate: rate, Face: exact.Int(60), Off: exact.Int(-1), Bound: exact.Int(1), Hard: true, Known: true,
	}}
}

func TestStandsAreVerified(t *testing.T) {
	v := Check(closing())
	require.True(t, v.OK, "%+v", v.Failed())
	last := v.Findings[len(v.Findings)-1]
	assert.Equal(t, "stand display, seam", last.Check)
	assert.Equal(t, "turns 59 deg, -1 deg from face 1, known to 0 deg; the bound is 1 deg", last.Text)
}

// A stand that has not come half way to its first face is not said to be beside one.
func TestAStandFarFromAnyFace(t *testing.T) {
	for _, c := range []struct {
		turned exact.Rat
		says   string
	}{
		{exact.New(702439, 10_000), "turns 70.2439 deg, not half of the 360 deg to the first face, known to 0 deg; the bound is 1 deg"},
		{exact.Int(179), "turns 179 deg, not half of the 360 deg to the first face, known to 0 deg; the bound is 1 deg"},
		{exact.Int(181), "turns 181 deg, -179 deg from face 1, known to 0 deg; the bound is 1 deg"},
	} {
		m := closing()
		m.rate = c.turned.Quo(exact.Int(-2))
		m.stand.Rate, m.stand.Face, m.stand.Off, m.stand.Hard = m.rate, exact.Int(360), c.turned.Sub(exact.Int(360)), false
		v := Check(m)
		require.True(t, v.OK, "%+v", v.Failed())
		assert.Contains(t, v.Findings[len(v.Findings)-1].Text, c.says)
	}
}

// Every frame is looked at, and where they are too many that is said.
func TestEvenTurnsAreLookedAtFrameByFrame(t *testing.T) {
	m := closing()
	m.frames = 5000
	m.slip = 3333
	assert.False(t, checkEven(context.Background(), m, m, 0).OK)
	m.slip = 0
	assert.Contains(t, checkEven(context.Background(), m, m, 0).Text, "at every frame")
	m.frames = 30_000
	assert.Contains(t, checkEven(context.Background(), m, m, 0).Text, "at one frame in 2")
}

func TestEachFlawOfAStandIsFound(t *testing.T) {
	for name, c := range map[string]struct {
		check string
		flaw  func(*turning)
	}{
		"beyond a stated bound":        {"stand display, seam", func(m *turning) { m.stand.Bound = exact.New(99, 100) }},
		"its drift is not known":       {"stand display, seam", func(m *turning) { m.stand.Known = false }},
		"its drift opens it":           {"stand display, seam", func(m *turning) { m.stand.Doubt = exact.New(1, 1_000_000) }},
		"the plan is wrong about it":   {"stand display, seam", func(m *turning) { m.stand.Off = exact.Int(0) }},
		"another speed than planned":   {"stand display, turning", func(m *turning) { m.rate = exact.New(-60, 2) }},
		"the other way than planned":   {"stand display, turning", func(m *turning) { m.rate = exact.New(59, 2) }},
		"a slip in mid-loop":           {"stand display, turning", func(m *turning) { m.slip = 20 }},
		"a slip at the end":            {"stand display, seam", func(m *turning) { m.slip = 48 }},
		"it hardly turns: no match":    {"stand display, seam", func(m *turning) { m.rate, m.stand.Rate, m.stand.Off = exact.New(1, 2), exact.New(1, 2), exact.Int(1) }},
		"it never turned: not at rest": {"stand display, seam", func(m *turning) { m.rate, m.stand.Rate, m.stand.Off = exact.Rat{}, exact.Rat{}, exact.Rat{} }},
	} {
		m := closing()
		c.flaw(&m)
		v := Check(m)
		require.False(t, v.OK, name)
		var found []string
		for _, f := range v.Failed() {
			found = append(found, f.Check)
		}
		assert.Contains(t, found, c.check, name)
	}
}

func TestABoundThatIsNotStatedIsACaution(t *testing.T) {
	m := closing()
	m.stand.Bound, m.stand.Hard = exact.New(1, 2), false
	v := Check(m)
	require.True(t, v.OK)
	assert.Contains(t, v.Findings[len(v.Findings)-1].Text, "which the shot does not state")
	m.stand.Known = false
	require.True(t, Check(m).OK)
}

// Whatever the stand, the verifier's own seam is that of the search, which it
// does not import.
func TestTheSeamIsWorkedOutAnew(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		m := closing()
		m.rate = exact.New(rapid.Int64Range(-9000, 9000).Draw(r, "rate"), 7)
		k := rapid.Int64Range(1, 12).Draw(r, "symmetry")
		m.stand.Rate, m.stand.Face, m.stand.Bound = m.rate, exact.New(360, k), exact.Int(360)
		// By the definition: turned, less the nearest of the faces from the first.
		turned := m.rate.Abs().Mul(exact.Int(2))
		best := turned.Sub(m.stand.Face)
		for n := int64(2); n <= 1000; n++ {
			off := turned.Sub(m.stand.Face.Mul(exact.Int(n)))
			if off.Abs().Cmp(best.Abs()) <= 0 { // half way counts for the next face
				best = off
			}
		}
		m.stand.Off = best
		require.True(r, Check(m).OK, "%+v", Check(m).Failed())
	})
}

// stands is the cosine with two stands, of which the second may be another.
type stands struct {
	turning
	second turning
}

func (s stands) StandCount() int { return 2 }
func (s stands) Stand(i int) trace.Stand {
	return [2]turning{s.turning, s.second}[i].Stand(0)
}
func (s stands) StandAngle(i int, k int64) exact.Rat {
	return [2]turning{s.turning, s.second}[i].StandAngle(0, k)
}

// TestEachStandForItself: a flaw of the second is found, and is not the first's.
func TestEachStandForItself(t *testing.T) {
	s := stands{closing(), closing()}
	s.second.stand.Name = "plinth"
	require.Empty(t, Check(s).Failed())
	s.second.slip = 20
	f := Check(s).Failed()
	require.Len(t, f, 1)
	assert.Equal(t, "stand plinth, turning", f[0].Check)
}

// TestFacesOfAStand: half way counts for the next face, a turn of many faces for as many,
// and one that hardly turns for none. By hand, of faces of 60 degrees.
func TestFacesOfAStand(t *testing.T) {
	for _, x := range []struct {
		turned, off exact.Rat
		says        string
	}{
		{exact.Int(60), exact.Int(0), "turns 60 deg, 0 deg from face 1, "},
		{exact.Int(299), exact.Int(-1), "turns 299 deg, -1 deg from face 5, "},
		{exact.Int(90), exact.Int(-30), "turns 90 deg, -30 deg from face 2, "},
		{exact.Int(89), exact.Int(29), "turns 89 deg, 29 deg from face 1, "},
		{exact.Int(30), exact.Int(-30), "turns 30 deg, -30 deg from face 1, "},
		{exact.Int(29), exact.Int(-31), "turns 29 deg, not half of the 60 deg to the first face, "},
		{exact.Int(0), exact.Int(-60), "turns 0 deg, not half of the 60 deg to the first face, "},
	} {
		for _, way := range []int64{1, -1} {
			m := closing()
			m.rate = x.turned.Mul(exact.New(way, 2))
			m.stand.Rate, m.stand.Off, m.stand.Hard = m.rate, x.off, false
			f := checkFace(m, m, 0)
			assert.True(t, f.OK, f.Text)
			assert.Contains(t, f.Text, x.says)
			m.stand.Off = x.off.Add(exact.New(1, 1000))
			f = checkFace(m, m, 0)
			assert.False(t, f.OK, f.Text)
			assert.Contains(t, f.Text, "; the plan says ")
		}
	}
}

// TestTheLastFrameIsLookedAt: a slip in the frame on the seam itself is one, and so is one
// in the first after the start.
func TestTheLastFrameIsLookedAt(t *testing.T) {
	for _, slip := range []int64{1, 47, 48} {
		m := closing()
		m.slip = slip
		assert.Equal(t, fmt.Sprintf("frame %d finds it 1 deg from where its speed puts it", slip), checkEven(context.Background(), m, m, 0).Text)
	}
}
