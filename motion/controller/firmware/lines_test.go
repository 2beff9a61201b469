package firmware

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNumbersAreReadAsTheBoardReadsThem: digits, one point, a sign before them; what
// follows is not part of it. Of more than eight digits a board with 24 bits drops those
// after the point and counts those before it as noughts.
func TestNumbersAreReadAsTheBoardReadsThem(t *testing.T) {
	for _, x := range []struct {
		text         string
		narrow, wide float64
		used         int
	}{
		{"12.5", 12.5, 12.5, 4}, {"-.5X", -0.5, -0.5, 3}, {"3.", 3, 3, 2}, {"007", 7, 7, 3}, {"1.5.2", 1.5, 1.5, 3}, {"1-2", 1, 1, 1},
		{"0.25 Y1", 0.25, 0.25, 4}, {"", 0, 0, 0}, {"X", 0, 0, 0}, {"-", 0, 0, 0}, {".", 0, 0, 0}, {"+1", 0, 0, 0},
		{"1234567890", 1234567900 - 20, 1234567890, 10}, {"0.0625", 0.0625, 0.0625, 6},
		{"100.123456789", float64(float32(100.12345)), 100.123456789, 13}, {"9", 9, 9, 1},
	} {
		narrow, wide := &Board{}, &Board{Wide: true}
		got, used := narrow.number(x.text)
		assert.InDelta(t, x.narrow, got, 1e-7*x.narrow*x.narrow/max(1, x.narrow)+1e-9, x.text)
		assert.Equal(t, x.used, used, x.text)
		got, used = wide.number(x.text)
		assert.InDelta(t, x.wide, got, 1e-12, x.text)
		assert.Equal(t, x.used, used, x.text)
	}
	// Two decimals at a time, then the last: each rounds by itself.
	assert.Equal(t, float32(float64(float32(float64(float32(12345))*0.01))*0.1), Single(12345, -3))
	assert.Equal(t, float32(12300), Single(123, 2))
	assert.Equal(t, float32(1.23), Single(123, -2))
	assert.Equal(t, float32(12.3), Single(123, -1))
	assert.Equal(t, float32(123), Single(123, 0))
}

// TestLinesAreUnderstood: what is not foretold is refused, with the line.
func TestLinesAreUnderstood(t *testing.T) {
	read := func(lines ...string) (Order, error) {
		r := railAndTable().Reader("XA", Counts{80, 20})
		var o Order
		var err error
		for _, l := range lines {
			if o, err = r.Read(l); err != nil {
				return o, err
			}
		}
		return o, nil
	}
	for _, x := range []struct {
		lines []string
		want  Order
	}{
		{[]string{"G21 G90"}, Order{To: Counts{80, 20}, Chars: 8}},
		{[]string{"G1 X2.5 A3 F600"}, Order{Moves: true, To: Counts{200, 30}, Pace: Pace{Feed: 600}, Chars: 16}},
		{[]string{"G1 X2 F600", "A4"}, Order{Moves: true, To: Counts{160, 40}, Pace: Pace{Feed: 600}, Chars: 3}},
		{[]string{"G93", "G1 X2 F3"}, Order{Moves: true, To: Counts{160, 20}, Pace: Pace{Feed: 3, Inverse: true}, Chars: 9}},
		{[]string{"G93", "G94", "G1 X2 F3"}, Order{Moves: true, To: Counts{160, 20}, Pace: Pace{Feed: 3}, Chars: 9}},
		{[]string{"F600", "G0 X0"}, Order{Moves: true, To: Counts{0, 20}, Pace: Pace{Feed: 600, Rapid: true}, Chars: 6}},
		{[]string{"G4P0.5"}, Order{To: Counts{80, 20}, Dwells: true, Dwell: 0.5, Chars: 7}},
		{[]string{"M2"}, Order{To: Counts{80, 20}, Chars: 3}}, {[]string{"M0"}, Order{To: Counts{80, 20}, Chars: 3}},
		{[]string{"M8"}, Order{To: Counts{80, 20}, Dwells: true, Chars: 3}}, {[]string{"M42 P13 S255"}, Order{To: Counts{80, 20}, Dwells: true, Chars: 13}},
	} {
		o, err := read(x.lines...)
		require.NoError(t, err, "%q", x.lines)
		assert.Equal(t, x.want, o, "%q", x.lines)
	}
	for _, x := range []struct {
		lines []string
		says  string
	}{
		{[]string{"G1 X F6"}, `line "G1 X F6": letter 'X' wants a number`},
		{[]string{"G2 X1 F6"}, `line "G2 X1 F6": G2 is not foretold`},
		{[]string{"G1 M3"}, `line "G1 M3": M3 is not foretold`},
		{[]string{"G1 Y1 F6"}, `line "G1 Y1 F6": there is no axis 'Y'`},
		{[]string{"G1 X1"}, `line "G1 X1": its feed is missing or 0`},
		{[]string{"G1 X1 F0"}, `line "G1 X1 F0": its feed is missing or 0`},
		{[]string{"G93", "G1 X2 F3", "X3"}, `line "X3": its feed is missing or 0`},
	} {
		_, err := read(x.lines...)
		assert.EqualError(t, err, x.says)
	}
}

// TestLinesOnTheWire: ten bits a character. A host that counts characters sends as many
// lines as the board holds; one that waits sends each when the last is answered, which
// takes four characters back and what it takes to reply.
func TestLinesOnTheWire(t *testing.T) {
	const us = 1_000_000 * Picosecond
	w := newWire(Link{Baud: 1_000_000, Receive: 25, Reply: 500 * us})
	require.True(t, w.fits(10))
	w.send(10)
	require.True(t, w.fits(15), "25 characters are there")
	require.False(t, w.fits(16))
	w.send(15)
	assert.Equal(t, []sent{{10, 100 * us}, {15, 250 * us}}, w.sent)
	w.answer(1000 * us)
	assert.Equal(t, 1540*us, w.told, "40 us of wire, and the reply")
	require.True(t, w.fits(10))
	require.False(t, w.fits(11))
	w.send(10)
	assert.Equal(t, 1640*us, w.sent[len(w.sent)-1].there, "once it has been told")
	w.answer(1010 * us)
	assert.Equal(t, 1580*us, w.told, "the wire back is busy until 1040")
	w.answer(3000 * us)
	assert.Equal(t, 3540*us, w.told)
	assert.Zero(t, w.held)
	require.True(t, w.fits(99), "one that is too long goes out alone")

	one := newWire(Link{Single: true, Baud: 1_000_000})
	require.True(t, one.fits(5))
	one.send(5)
	require.False(t, one.fits(5), "each waits for its answer")
	one.answer(60 * us)
	require.True(t, one.fits(5))
	one.send(5)
	assert.Equal(t, 150*us, one.sent[one.first].there)

	free := newWire(Link{})
	for range 100 {
		require.True(t, free.fits(80))
		free.send(80)
	}
	assert.Zero(t, free.sent[99].there, "at once")
}
