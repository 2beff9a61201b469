package click_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/export/cue/click"
	"seamrail/motion/base/exact"
	"seamrail/motion/cue"
	"seamrail/motion/plan/sample"
)

func written(t testing.TB, take cue.Take) []byte {
	var out bytes.Buffer
	require.NoError(t, click.Write(&out, take, []string{"a click track", "plan 0123"}))
	return out.Bytes()
}

// side is one channel of the samples of a file, which follow a head of this
// package's own making.
func side(t testing.TB, file []byte, channel int) []int16 {
	at := bytes.Index(file, []byte("data"))
	require.Positive(t, at)
	data := file[at+8:]
	out := make([]int16, len(data)/4)
	for i := range out {
		out[i] = int16(binary.LittleEndian.Uint16(data[4*i+2*channel:]))
	}
	return out
}

// onset is where a sound begins: not 0 after so many samples of silence.
type onset struct {
	at int64
	hz float64 // counted from where it crosses 0
}

// silence, in samples, is 15 ms: more than any half wave, less than the time
// between two sounds that these tests make.
const silence = 720

func onsets(samples []int16) []onset {
	var out []onset
	quiet, last := silence, int16(0)
	crossings := 0
	for i, v := range samples {
		switch {
		case v != 0 && quiet >= silence:
			out = append(out, onset{at: int64(i)})
			crossings = 0
		case v != 0 && last != 0 && (v > 0) != (last > 0):
			crossings++
			o := &out[len(out)-1]
			o.hz = float64(crossings) / 2 / (float64(int64(i)-o.at) / click.Rate)
		}
		if v == 0 {
			quiet++
		} else {
			quiet, last = 0, v
		}
	}
	return out
}

// expected lists the samples at which a channel begins to sound, from the exact
// times, by arithmetic that is not the exporter's.
func expected(take cue.Take, hands ...string) (at []int64, hz []float64) {
	for b := range take.Beats() {
		mine := b.Cue == cue.CountIn
		for _, h := range hands {
			mine = mine || take.Cues[b.Cue].Hand == h
		}
		if !mine {
			continue
		}
		r := new(big.Rat).SetFrac(b.At.Num(), b.At.Den())
		r.Mul(r, big.NewRat(96000, 1)).Add(r, big.NewRat(1, 1)) // twice the sample, and a half to round
		n := new(big.Int).Div(r.Num(), new(big.Int).Mul(r.Denom(), big.NewInt(2)))
		tone := 1000.
		if b.Left == 0 && b.Cue != cue.CountIn {
			tone = 2000
		}
		at, hz = append(at, n.Int64()), append(hz, tone)
	}
	return at, hz
}

// Each tone begins on the sample nearest to its exact time, is of its pitch, and
// is heard on the side of its hand.
func TestTonesAreOnTheirSamples(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 3)
	file := written(t, take)
	for channel, hand := range []string{"left", "right"} {
		want, hz := expected(take, hand)
		got := onsets(side(t, file, channel))
		require.Len(t, got, len(want), hand)
		for i, o := range got {
			assert.Equal(t, want[i], o.at, "%s, sound %d", hand, i)
			assert.InDelta(t, hz[i], o.hz, hz[i]/50, "%s, sound %d", hand, i)
		}
	}
}

// One hand is heard on both sides, and so are three.
func TestBothSides(t *testing.T) {
	for _, text := range []string{
		"[[cue]]\nname = \"a\"\nhand = \"right\"\nat = \"60 frames\"\n",
		"[[cue]]\nname = \"a\"\nhand = \"x\"\nat = \"60 frames\"\nrounds = 1\n[[cue]]\nname = \"b\"\nhand = \"y\"\nat = \"90 frames\"\nrounds = 2\n[[cue]]\nname = \"c\"\nhand = \"z\"\nat = \"9 frames\"\nrounds = 3\n",
	} {
		file := written(t, sample.Cued(t, text, 3))
		assert.Equal(t, side(t, file, 0), side(t, file, 1))
	}
}

// The head says what the bytes are; every size in it is right.
func TestHead(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 2)
	file := written(t, take)
	u32 := func(at int) int64 { return int64(binary.LittleEndian.Uint32(file[at:])) }
	assert.Equal(t, "RIFF", string(file[:4]))
	assert.EqualValues(t, len(file)-8, u32(4))
	assert.Equal(t, "WAVEfmt ", string(file[8:16]))
	seconds := take.Lasts().Float()
	data := bytes.Index(file, []byte("data"))
	assert.EqualValues(t, len(file)-data-8, u32(data+4))
	assert.Equal(t, math.Ceil(seconds*48000)+24000, float64(u32(data+4)/4))
	assert.Contains(t, string(file[:data]), "a click track\nplan 0123\x00")
	assert.Zero(t, data%2, "chunks begin at even bytes")
}

func TestSample(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(0, 1e9).Draw(t, "frame")
		assert.Equal(t, 2002*n, click.Sample(exact.New(1001*n, 24000)), "a frame at 23.976 is 2002 samples, for ever")
	})
	assert.EqualValues(t, 1, click.Sample(exact.New(1, 96000)), "a half goes up")
}

// Loud tones that fall together stay within full scale.
func TestTogetherTheyAreNotCut(t *testing.T) {
	text := ""
	for _, name := range []string{"a", "b"} {
		text += fmt.Sprintf("[[cue]]\nname = %q\nat = \"60 frames\"\nrounds = 1\n", name)
	}
	peak := int16(0)
	for _, v := range side(t, written(t, sample.Cued(t, text, 1)), 0) {
		peak = max(peak, v)
	}
	assert.Greater(t, peak, int16(math.MaxInt16/5*4))
	assert.Less(t, peak, int16(math.MaxInt16))
}

// Six hours are what a file can say; more is refused and nothing written.
func TestTooLong(t *testing.T) {
	take := sample.Cued(t, "[[cue]]\nname = \"a\"\nat = \"60 frames\"\nrounds = 1\n", 20_000)
	var out bytes.Buffer
	err := click.Write(&out, take, nil)
	assert.ErrorContains(t, err, "a click track of 6.7 hours is more than a WAV file holds, 6.2 hours: fewer rounds would do")
	assert.Zero(t, out.Len())
}

func TestWriteErrors(t *testing.T) {
	take := sample.Cued(t, sample.TwoHands, 1)
	sample.Fails(t, len(written(t, take)), func(w io.Writer) error { return click.Write(w, take, []string{"a click track", "plan 0123"}) })
}

// BenchmarkWrite reports seconds of sound written a second.
func BenchmarkWrite(b *testing.B) {
	take := sample.Cued(b, sample.TwoHands, 100)
	n := 0.
	for b.Loop() {
		require.NoError(b, click.Write(io.Discard, take, nil))
		n += take.Lasts().Float()
	}
	b.ReportMetric(n/b.Elapsed().Seconds(), "x")
}
