package sequencereport

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/sequence"
)

// TestCardWords: what is not known of the stills is said, and no share of a card is.
func TestCardWords(t *testing.T) {
	film := sequence.Card{Rate: exact.Int(50e6), Size: exact.Int(128e9)}
	assert.Contains(t, cardWords(sequence.Card{}, sequence.Totals{}), "not known; state bitrate")
	assert.Equal(t, "64 GB", cardWords(sequence.Card{}, sequence.Totals{Bytes: exact.Int(64e9)}), "said of each shot")
	assert.Contains(t, cardWords(sequence.Card{}, sequence.Totals{Bytes: exact.Int(64e9), Unsized: 3}), "64 GB for what is known; not known of 3 takes; state bitrate")
	assert.Equal(t, "64 GB, 50 % of a card of 128 GB", cardWords(film, sequence.Totals{Bytes: exact.Int(64e9)}))
	assert.Equal(t, "128 GB, 100 % of a card of 128 GB", cardWords(film, sequence.Totals{Bytes: exact.Int(128e9)}))
	assert.Equal(t, "128 GB: at least 2 cards of 128 GB", cardWords(film, sequence.Totals{Bytes: exact.Int(128e9 + 1)}))
	some := cardWords(film, sequence.Totals{Bytes: exact.Int(64e9), Unsized: 3})
	assert.Contains(t, some, "64 GB for what is filmed; not known of the stills of 3 takes; state frame-size")
	assert.NotContains(t, some, "%")
	assert.NotContains(t, cardWords(film, sequence.Totals{Unsized: 1}), "0 B")
}

func TestTime(t *testing.T) {
	for seconds, text := range map[string]string{
		"0": "0 s", "41.25": "41.3 s", "59.94": "59.9 s", "60": "1 min", "725.4": "12 min 5 s", "3600": "1 h 0 min", "3599.9": "60 min", "86340": "23 h 59 min", "86399": "24 h 0 min",
	} {
		s, err := exact.Parse(seconds)
		require.NoError(t, err)
		assert.Equal(t, text, duration(s), seconds)
	}
}
