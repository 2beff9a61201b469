package preview_test

import (
	"bytes"
	"encoding/binary"
	"image"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/plan/sample"
	"seamrail/plot/preview"
)

// A clip has the frames of its shots in order, what dissolves in the share that is said.
func TestClipHoldsTheFrames(t *testing.T) {
	a := finder(t, shown(t, "24", "24", "", 5), lantern(), 32)
	b := finder(t, turning(t, 0.1), lantern(), 32)
	wide, high := a.Size()
	size := image.Point{wide, high}
	at := func(i int64) preview.Mixed {
		m := preview.Mixed{Shown: preview.Shown{Finder: a, Frame: i}}
		switch i {
		case 1:
			m.Into, m.Share = preview.Shown{Finder: b, Frame: 7}, 0.25
		case 2:
			m.Shown = preview.Shown{Finder: b, Frame: 8}
		}
		return m
	}
	var out bytes.Buffer
	got, err := preview.WriteClip(&out, 3, exact.Int(24), at, size)
	require.NoError(t, err)
	assert.Equal(t, 3, got.Pictures)
	assert.Equal(t, "1/8", got.Seconds.String())
	pictures := shownBy(t, out.Bytes())
	require.Len(t, pictures, 3)
	same(t, a.Frame(0), pictures[0].img)
	same(t, b.Frame(8), pictures[2].img)
	mixed, x, y := pictures[1].img, a.Frame(1), b.Frame(7)
	for i := range wide * high {
		r, _, _, _ := mixed.At(i%wide, i/wide).RGBA()
		want := 0.75*float64(x.Pix[4*i]) + 0.25*float64(y.Pix[4*i])
		require.InDelta(t, want, float64(r>>8), 1)
	}

	// What is less high stands in the middle.
	out.Reset()
	_, err = preview.WriteClip(&out, 2, exact.Int(24), at, image.Point{wide, high + 10})
	require.NoError(t, err)
	tall := shownBy(t, out.Bytes())[0].img
	assert.Equal(t, image.Point{wide, high + 10}, tall.Bounds().Size())
	assert.Equal(t, a.Frame(0).At(3, 3), tall.At(3, 8))
	assert.NotEqual(t, a.Frame(0).At(3, 0), tall.At(3, 4))

	_, err = preview.WriteClip(&out, 0, exact.Int(24), at, size)
	assert.ErrorContains(t, err, "has no picture")
	_, err = preview.WriteClip(&sample.Broken{}, 2, exact.Int(24), at, size)
	assert.ErrorIs(t, err, sample.ErrFull)
}

// Of a long clip every nth frame is drawn, and no more than two pictures are held.
func TestALongClipIsDrawnInLittleMemory(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "", 5), lantern(), 32)
	wide, high := f.Size()
	var asked []int64
	most := uint64(0)
	var m runtime.MemStats
	at := func(i int64) preview.Mixed {
		asked = append(asked, i)
		if len(asked)%200 == 0 {
			runtime.GC()
			runtime.ReadMemStats(&m)
			most = max(most, m.HeapAlloc)
		}
		return preview.Mixed{Shown: preview.Shown{Finder: f, Frame: 0}}
	}
	runtime.GC()
	runtime.ReadMemStats(&m)
	before := m.HeapAlloc
	got, err := preview.WriteClip(discard{}, 7000, exact.Int(24), at, image.Point{wide, high})
	require.NoError(t, err)
	assert.Equal(t, 2334, got.Pictures, "every third")
	assert.EqualValues(t, 6999, asked[len(asked)-1])
	assert.Equal(t, "875/3", got.Seconds.String())
	assert.Less(t, most, before+8<<20)
}

// Their delays add up to the clip.
func TestDelaysOfAClip(t *testing.T) {
	f := finder(t, shown(t, "24", "24", "", 5), lantern(), 32)
	wide, high := f.Size()
	var out bytes.Buffer
	_, err := preview.WriteClip(&out, 3001, exact.Int(24), func(int64) preview.Mixed { return preview.Mixed{Shown: preview.Shown{Finder: f}} }, image.Point{wide, high})
	require.NoError(t, err)
	sum := exact.Rat{}
	for _, c := range chunks(t, out.Bytes()) {
		if c.name == "fcTL" {
			sum = sum.Add(exact.New(int64(binary.BigEndian.Uint16(c.data[20:])), int64(binary.BigEndian.Uint16(c.data[22:]))))
		}
	}
	assert.Equal(t, "3001/24", sum.String())
}
