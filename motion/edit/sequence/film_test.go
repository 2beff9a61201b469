package sequence

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"seamrail/motion/base/exact"
)

// What is said of a shot is nearer than what is said of the card, and a kind that is stated
// than what the rate makes likely.
func TestAShotMayBeRecordedOtherwise(t *testing.T) {
	card := Card{Rate: exact.Int(50e6), Frame: exact.Int(25e6)}
	film := Film{Recorded: 240, Record: exact.Int(10)}
	for _, c := range []struct {
		own  Recording
		want int64
	}{
		{Recording{}, 500e6},
		{Recording{Rate: exact.Int(100e6)}, 1000e6},
		{Recording{Frame: exact.Int(1e6)}, 240e6},
		{Recording{Rate: exact.Int(100e6), Frame: exact.Int(1e6)}, 1000e6},
	} {
		assert.Equal(t, c.want, c.own.of(card).bytes(film).Whole(), "%+v", c.own)
	}
	assert.True(t, Recording{Records: Stills}.stills(exact.Int(24)))
	assert.False(t, Recording{Records: Filmed}.stills(exact.Int(1)))
	assert.True(t, Recording{}.stills(exact.New(1, 2)))
}

// A count-in goes on while the camera is ahead, and what goes beyond that counts.
func TestWhatATakeSpends(t *testing.T) {
	s := Spent{Slate: exact.Int(10), CountIn: exact.Int(3), Lead: exact.Int(2), RunUp: exact.Int(1), Rounds: exact.Int(6), RunOut: exact.Int(1), Return: exact.Int(4)}
	assert.Equal(t, "15", s.Beside().String(), "slate, a second of counting, the way back")
	assert.Equal(t, "8", s.Moving().String())
	assert.Equal(t, "27", s.All().String())
	s.CountIn = exact.Int(1)
	assert.Equal(t, "14", s.Beside().String())
}

// A bit rate is of film, and says nothing of stills.
func TestStillsAreCounted(t *testing.T) {
	film := Film{Recorded: 240, Record: exact.Int(10)}
	stills := Film{Recorded: 240, Record: exact.Int(480), Stills: true}
	rate, frame := exact.Int(50e6), exact.Int(25e6)
	for _, c := range []struct {
		card         Card
		film, stills int64
	}{
		{Card{}, 0, 0},
		{Card{Rate: rate}, 500e6, 0},
		{Card{Frame: frame}, 6000e6, 6000e6},
		{Card{Rate: rate, Frame: frame}, 500e6, 6000e6},
	} {
		assert.Equal(t, c.film, c.card.bytes(film).Whole(), "%+v", c.card)
		assert.Equal(t, c.stills, c.card.bytes(stills).Whole(), "%+v", c.card)
	}
	known := Totals{Bytes: rate}
	assert.Equal(t, rate, known.All())
	known.Unsized = 1
	assert.Zero(t, known.All().Sign(), "a part is not all")
	assert.True(t, exact.New(99, 10).Less(minFilm))
	assert.False(t, exact.Int(10).Less(minFilm))
}
