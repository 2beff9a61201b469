package decoder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestRates(t *testing.T) {
	for name, c := range map[string]struct {
		s      stream
		rate   string
		varies bool
	}{
		"even":             {stream{Finest: "24000/1001", Average: "24000/1001"}, "24000/1001", false},
		"rounded times":    {stream{Finest: "24000/1001", Average: "23971/1000"}, "24000/1001", true},
		"one in five lost": {stream{Finest: "24000/1001", Average: "19200/1001"}, "24000/1001", true},
		"uneven":           {stream{Finest: "90000/1", Average: "359/12"}, "359/12", true},
		"fields":           {stream{Finest: "50/1", Average: "25/1", Fields: "tt"}, "25", false},
		"twice, no field":  {stream{Finest: "50/1", Average: "25/1", Fields: "progressive"}, "25", true},
		"no mean":          {stream{Finest: "25/1", Average: "0/0"}, "25", false},
		"none":             {stream{Finest: "0/0", Average: "0/0"}, "0", false},
		"nonsense":         {stream{Finest: "-25/1", Average: "x"}, "0", false},
		"too great":        {stream{Finest: "9999999999/1", Average: "25"}, "0", false},
	} {
		t.Run(name, func(t *testing.T) {
			rate, varies := c.s.rate()
			assert.Equal(t, c.rate, rate.String())
			assert.Equal(t, c.varies, varies)
		})
	}
}

func TestPixels(t *testing.T) {
	for _, c := range []struct {
		s    stream
		bits int
		luma bool
		full bool
	}{
		{stream{Pixels: "yuv420p"}, 8, true, false},
		{stream{Pixels: "yuvj420p"}, 8, true, true},
		{stream{Pixels: "yuv420p", Range: "pc"}, 8, true, true},
		{stream{Pixels: "yuv422p10le", Range: "tv"}, 10, true, false},
		{stream{Pixels: "yuv420p", Bits: "10"}, 10, true, false},
		{stream{Pixels: "yuv420p", Bits: "99"}, 8, true, false},
		{stream{Pixels: "nv12"}, 8, true, false},
		{stream{Pixels: "p010le"}, 10, true, false},
		{stream{Pixels: "gray"}, 8, true, true},
		{stream{Pixels: "gray12be", Range: "tv"}, 12, true, false},
		{stream{Pixels: "gbrp"}, 8, false, true},
		{stream{Pixels: "gbrp12le"}, 12, false, true},
		{stream{Pixels: "rgb24"}, 8, false, true},
		{stream{Pixels: "rgb48be", Range: "tv"}, 16, false, true},
		{stream{Pixels: "rgba64le"}, 16, false, true},
		{stream{Pixels: "pal8"}, 8, false, true},
		{stream{}, 8, false, true},
	} {
		assert.Equal(t, c.bits, c.s.bits(), c.s.Pixels)
		assert.Equal(t, c.luma, c.s.hasLuma(), c.s.Pixels)
		assert.Equal(t, c.full, c.s.full(), c.s.Pixels)
		assert.Equal(t, c.luma, c.s.filter() == "extractplanes=y", c.s.Pixels)
	}
}

// Where the stream has no timecode the container's counts, whatever case it is written in.
func TestTimecodes(t *testing.T) {
	s, err := parseProbed("a", []byte(`{"streams":[{"width":1,"height":1}],"format":{"tags":{"TIMECODE":"10:00:00;02\u001b"}}}`))
	require.NoError(t, err)
	assert.Equal(t, "10:00:00;02", timecode(s.Tags))
	s, err = parseProbed("a", []byte(`{"streams":[{"width":1,"height":1,"tags":{"timecode":"01:00:00:00"}}],"format":{"tags":{"timecode":"02:00:00:00"}}}`))
	require.NoError(t, err)
	assert.Equal(t, "01:00:00:00", timecode(s.Tags))
}

// Of many words the last are kept.
func TestTail(t *testing.T) {
	var words tail
	for range 10_000 {
		_, err := words.Write([]byte("line of words\n"))
		require.NoError(t, err)
	}
	_, err := words.Write([]byte("the last\n"))
	require.NoError(t, err)
	assert.Equal(t, "line of words; line of words; the last", words.last())
	assert.LessOrEqual(t, len(words.bytes), maxKept)
	_, err = words.Write([]byte(strings.Repeat("ä", 3000)))
	require.NoError(t, err)
	assert.LessOrEqual(t, len(words.last()), maxTold+len("..."))
}

func FuzzProbed(f *testing.F) {
	f.Add([]byte(`{"streams":[{"width":320,"height":240,"pix_fmt":"yuv420p10le","color_range":"tv","r_frame_rate":"24000/1001","avg_frame_rate":"24000/1001","nb_frames":"24","tags":{"timecode":"01:02:03:04"}}],"format":{"tags":{}}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		s, err := parseProbed("f", text)
		if err != nil {
			return
		}
		rate, _ := s.rate()
		assert.GreaterOrEqual(t, rate.Sign(), 0)
		assert.True(t, s.bits() >= 1 && s.bits() <= maxBits)
		assert.NotContains(t, timecode(s.Tags), "\x1b")
	})
}
