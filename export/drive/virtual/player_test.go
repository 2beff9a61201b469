package virtual_test

import (
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
	"seamrail/motion/spec/rig"
)

// vectors reads the test vectors of the protocol's page.
func vectors(t *testing.T) map[string]string {
	t.Helper()
	page, err := os.ReadFile("../stepplayer/PROTOCOL.md")
	require.NoError(t, err)
	_, rest, found := strings.Cut(string(page), "## Test vectors")
	require.True(t, found)
	_, rest, _ = strings.Cut(rest, "```\n")
	rest, _, found = strings.Cut(rest, "```")
	require.True(t, found)
	out := map[string]string{}
	for line := range strings.Lines(rest) {
		name, bytes, _ := strings.Cut(strings.TrimSpace(line), " ")
		raw, err := hex.DecodeString(strings.ReplaceAll(bytes, " ", ""))
		require.NoError(t, err, line)
		out[name] = string(raw)
	}
	return out
}

// crc is CRC-16/IBM-3740 by its remainder: the bits of the message, with the
// first sixteen turned over and sixteen noughts behind, divided by the
// polynomial as one does on paper.
func crc(p []byte) uint16 {
	var bits []byte
	for _, b := range append(append([]byte(nil), p...), 0, 0) {
		for i := 7; i >= 0; i-- {
			bits = append(bits, b>>i&1)
		}
	}
	for i := range 16 {
		bits[i] ^= 1
	}
	divisor := []byte{1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1}
	for i := 0; i+16 < len(bits); i++ {
		if bits[i] == 1 {
			for k, d := range divisor {
				bits[i+k] ^= d
			}
		}
	}
	out := uint16(0)
	for _, b := range bits[len(bits)-16:] {
		out = out<<1 | uint16(b)
	}
	return out
}

func TestPaperCRC(t *testing.T) {
	assert.Equal(t, uint16(0x29b1), crc([]byte("123456789")), "the published check value")
}

// bencher speaks frames with a step player.
type bencher struct {
	t    *testing.T
	rig  *virtual.Rig
	next byte
	in   []byte
}

func newPlayer(t *testing.T, spoil func(o *virtual.Options)) *bencher {
	o := bench()
	o.Kind = rig.StepPlayer
	o.Axes = append(o.Axes, virtual.Axis{Letter: 'A', Rotary: true, StepsPerUnit: 10, Acceleration: 100, Speed: 90, Endless: true})
	if spoil != nil {
		spoil(&o)
	}
	return &bencher{t: t, rig: virtual.New(o)}
}

func (b *bencher) frame(seq, kind byte, payload []byte) string {
	f := append([]byte{byte(len(payload)), seq, kind}, payload...)
	return "\x7e" + string(binary.LittleEndian.AppendUint16(f, crc(f)))
}

// do sends an ordered frame and returns the answers.
func (b *bencher) do(kind byte, payload ...byte) string {
	out := b.send(b.frame(b.next, kind, payload))
	if kind == 'H' {
		b.next = 0
	} else {
		b.next++
	}
	return out
}

// send puts bytes on the wire and returns the answers at once, as words: the
// type, and what of the payload tells.
func (b *bencher) send(raw string) string {
	_, err := b.rig.Write([]byte(raw))
	require.NoError(b.t, err)
	return b.hear()
}

func (b *bencher) hear() string {
	b.in = b.rig.Read(b.in)
	var out []string
	for len(b.in) > 0 {
		require.Equal(b.t, byte(0x7e), b.in[0])
		n := int(b.in[1])
		f, check := b.in[1:4+n], b.in[4+n:6+n]
		require.Equal(b.t, crc(f), binary.LittleEndian.Uint16(check))
		out = append(out, words(f[2], f[3:]))
		b.in = b.in[6+n:]
	}
	return strings.Join(out, " ")
}

func words(kind byte, p []byte) string {
	switch kind {
	case 'a':
		return fmt.Sprintf("a%d", binary.LittleEndian.Uint16(p))
	case 'n':
		return fmt.Sprintf("n%d", p[0])
	case 's':
		return fmt.Sprintf("s%d:%d", p[0], binary.LittleEndian.Uint32(p[3:]))
	}
	return string(kind)
}

func (b *bencher) begin(tick time.Duration) {
	b.hear()
	require.Equal(b.t, "h", b.do('H'))
	p := binary.LittleEndian.AppendUint32(nil, uint32(tick))
	require.Equal(b.t, "a1024", b.do('B', append(p, 2)...))
}

// rows sends n rows of the same steps.
func (b *bencher) rows(n int, x, a int8) {
	for n > 0 {
		k := min(n, 120)
		var p []byte
		for range k {
			p = append(p, byte(x), byte(a))
		}
		require.Equal(b.t, "a", b.do('R', p...)[:1])
		n -= k
	}
}

// The page's own frames are understood, and answered as the page has it.
func TestPageVectors(t *testing.T) {
	v := vectors(t)
	b := newPlayer(t, nil)
	assert.Equal(t, "h", b.hear(), "at power-up")
	assert.Equal(t, "h", b.send(v["hello"]))
	assert.Equal(t, "a1024", b.send(v["begin"]))
	assert.Equal(t, "a1024", b.send(v["place"]))
	assert.Equal(t, "a1021", b.send(v["rows"]))
	assert.Equal(t, "s1:0 a1022", b.send(v["go"]), "the row in play has left the store")
	b.rig.Advance(10 * time.Millisecond)
	b.hear()
	// A status as the page has it: starved after 3 rows, at 3200 + 3 + 4 - 128
	// and -7 - 1 - 1 + 127.
	b.rig.Write([]byte(v["status?"]))
	got := b.rig.Read(nil)
	assert.Equal(t, "7e0f0473050004030000", hex.EncodeToString(got[:10]))
	assert.Equal(t, int32(3079), int32(binary.LittleEndian.Uint32(got[11:])))
	assert.Equal(t, int32(118), int32(binary.LittleEndian.Uint32(got[15:])))
}

func TestStepsOfASession(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	b.rows(300, 8, -1)
	assert.Equal(t, "s1:0 a725", b.do('G'), "the row in play has left the store")
	assert.Equal(t, "a725", b.do('E'))
	b.rig.Advance(150*time.Millisecond + time.Microsecond)
	assert.Equal(t, "s1:150", b.send(b.frame(0, '?', nil)))
	b.rig.Advance(time.Second)
	assert.Equal(t, "s4:300", b.hear())
	assert.Equal(t, []float64{2400. / 80, -300. / 10}, b.rig.Place())
	n, last := 0, 0.0
	b.rig.Record().Steps(func(s virtual.Step) bool {
		if s.Axis == 0 {
			n++
			assert.InDelta(t, float64(n)*125e-6, s.Seconds, 1e-9, "evenly over the tick")
		}
		last = s.Seconds
		return true
	})
	assert.Equal(t, 2400, n)
	assert.InDelta(t, 0.3, last, 1e-9)
}

// A hold takes 128 rows, and so does a resume; each row lasts sqrt(128/(129-k))
// or sqrt(128/k) ticks, and no step is lost.
func TestPlayerHolds(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	b.rows(600, 4, 0)
	b.do('G')
	b.do('E')
	b.rig.Advance(100*time.Millisecond - time.Microsecond)
	b.hear()
	assert.Equal(t, "s2:99", b.send(b.frame(0, '!', nil)))
	slows := 0.0
	for k := 1; k <= 128; k++ {
		slows += 1e-3 * math.Sqrt(128/float64(k))
	}
	b.rig.Advance(lasting(slows + 1e-4))
	assert.Equal(t, "s3:228", b.hear())
	place := b.rig.Place()
	assert.Equal(t, 228*4/80., place[0])
	b.rig.Advance(time.Minute)
	assert.Equal(t, place, b.rig.Place())
	assert.Equal(t, "s1:228", b.send(b.frame(0, '~', nil)))
	b.rig.Advance(lasting(slows + (600-228-128)*1e-3 - 1e-4))
	assert.Empty(t, b.hear())
	b.rig.Advance(time.Millisecond)
	assert.Equal(t, "s4:600", b.hear())
	assert.Equal(t, 30.0, b.rig.Place()[0])
}

func TestPlayerRunsOut(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	b.rows(10, 4, 0)
	b.do('G')
	b.rig.Advance(time.Second)
	assert.Equal(t, "s5:10", b.hear())
	assert.EqualValues(t, 1, b.rig.Stats().Underruns)
	assert.Equal(t, "n4", b.do('R', 1, 1), "not after it has starved")
}

// On the way of a hold it is held, not starved.
func TestPlayerRunsOutHolding(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	b.rows(10, 4, 0)
	b.do('G')
	b.send(b.frame(0, '!', nil))
	b.rig.Advance(time.Second)
	assert.Equal(t, "s3:10", b.hear())
	b.rows(5, 4, 0)
	b.do('E')
	b.send(b.frame(0, '~', nil))
	b.rig.Advance(time.Second)
	assert.Equal(t, "s4:15", b.hear())
}

func TestPlayerOrder(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	row := b.frame(1, 'R', []byte{1, 1})
	assert.Equal(t, "n1", b.send(b.frame(3, 'R', []byte{1, 1})), "one is missing")
	assert.Equal(t, "a1023", b.send(row))
	assert.Equal(t, "a1023", b.send(row), "a repeat, not played twice")
	b.next = 2
	assert.Equal(t, "n3", b.do('R', 1))
	b.next = 2
	assert.Equal(t, "n3", b.do('B', 1, 2))
	b.next = 2
	bad := []byte(b.frame(2, 'R', []byte{1, 1}))
	bad[4] ^= 1
	assert.Empty(t, b.send(string(bad)), "a wrong check is not answered")
	assert.Equal(t, "a1022", b.send(b.frame(2, 'R', []byte{1, 1})))
	assert.Equal(t, "a1021", b.send("\x7e\x02"+b.frame(3, 'R', []byte{1, 1})), "half a frame before it")
	b.next = 4
	assert.Empty(t, b.send("\x7e\x10\x04"), "a frame that stops half-way")
	b.rig.Advance(time.Second)
	assert.Equal(t, "a1020", b.do('R', 1, 1))
	for range 8 {
		b.rows(120, 1, 1)
	}
	full := make([]byte, 240)
	assert.Equal(t, "n2", b.do('R', full...))
}

func TestPlayerRefusesWhileItMoves(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	b.rows(100, 1, 1)
	b.do('G')
	assert.Equal(t, "n4", b.send(b.frame(0, 'H', nil)))
	assert.Equal(t, "n4", b.do('P', 0, 0, 0, 0, 0, 0, 0, 0))
	b.rig.Advance(2500 * time.Microsecond)
	b.hear()
	assert.Equal(t, "s6:2", b.send(b.frame(0, '^', nil)))
	place := b.rig.Place()
	d := b.rig.Record()
	assert.InDelta(t, 2.5e-3, d.Span(d.Len()-1).End, 1e-12, "it ends in mid-row")
	b.rig.Advance(time.Second)
	assert.Equal(t, place, b.rig.Place())
	assert.Equal(t, "h", b.send(b.frame(0, 'H', nil)))
}

// Held is at rest: a new beginning forgets the rows that wait.
func TestPlayerBeginsAnewFromAHold(t *testing.T) {
	b := newPlayer(t, nil)
	b.begin(time.Millisecond)
	b.rows(200, 4, 0)
	b.do('G')
	b.send(b.frame(0, '!', nil))
	b.rig.Advance(time.Second)
	assert.Equal(t, "s3:129", b.hear(), "the one in play, and 128")
	assert.Equal(t, "s0:0 a1024", b.do('B', 0x40, 0x42, 0x0f, 0, 2))
	b.rows(1, 4, 0)
	b.do('G')
	b.rig.Advance(time.Second)
	assert.Equal(t, 130*4/80., b.rig.Place()[0])
}

func TestPlayerSwitch(t *testing.T) {
	b := newPlayer(t, func(o *virtual.Options) {
		o.Axes[0].Switches, o.Axes[0].Low, o.Axes[0].High = true, -1, 1
	})
	b.begin(time.Millisecond)
	b.rows(100, 2, 0)
	b.do('G')
	b.hear()
	b.rig.Advance(time.Second)
	assert.Equal(t, "s7:39", b.hear())
	assert.Equal(t, 1.0, b.rig.Place()[0])
	assert.Equal(t, "n5", b.do('G'))
	b.next--
	assert.Equal(t, "s0:39 a1024", b.do('P', 0, 0, 0, 0, 0, 0, 0, 0))
}

func TestPlayerFaults(t *testing.T) {
	b := newPlayer(t, func(o *virtual.Options) {
		o.ResetsOnOpen, o.BootSeconds = true, 0.5
		o.Faults = []virtual.Fault{{Kind: virtual.LoseOK, Nth: 2}, {Kind: virtual.DoubleOK, Nth: 3},
			{Kind: virtual.RefuseLine, Nth: 4, Value: 4}, {Kind: virtual.Restart, At: 5 * time.Second}}
	})
	assert.Empty(t, b.do('H'), "booting")
	b.rig.Advance(time.Second)
	b.begin(time.Millisecond)
	assert.Empty(t, b.do('R', 1, 1))
	assert.Equal(t, "a1022 a1022", b.do('R', 1, 1))
	assert.Equal(t, "n4", b.do('R', 1, 1))
	b.rig.Advance(4500 * time.Millisecond)
	assert.Equal(t, "h", b.hear(), "it has started anew")
}
