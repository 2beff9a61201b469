package plain_test

import (
	"encoding/json"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/plain"
)

func TestText(t *testing.T) {
	for in, want := range map[string]string{
		"Fernhollow, 100 % · ½ é 灯 🏮":      "Fernhollow, 100 % · ½ é 灯 🏮",
		"e\u0301 a\u00a0b":                 "e\u0301 a\u00a0b", // an accent of its own, a space that holds
		"a\x1b[31mb\x07\x7f":               "a [31mb  ",
		"a\u0085b\u009bc":                  "a b c",
		"a\nb\tc\rd\u2028e\u2029":          "a b c d e ",
		"a\u202eb\u202a\u202b\u202c\u202d": "a\ufffdb\ufffd\ufffd\ufffd\ufffd",
		"\u2066\u2067\u2068\u2069":         "\ufffd\ufffd\ufffd\ufffd",
		"\u200e\u200f\u061c":               "\ufffd\ufffd\ufffd",
		"\u200b\u200c\u200d\u2060\ufeff":   "\ufffd\ufffd\ufffd\ufffd\ufffd",
		"\u00ad\U000e0041":                 "\ufffd\ufffd",
		"a\xffb\xc3":                       "a\ufffdb\ufffd",
		"\ufffe\ue000":                     "\ufffd\ufffd",
	} {
		assert.Equal(t, want, plain.Text(in), "%q", in)
		assert.Equal(t, in == want, plain.Is(in), "%q", in)
	}
	assert.Equal(t, "a b", plain.Line(" a\n\t b\x00"))
}

// What comes out is plain, stays as it is, and has as many characters.
func TestTextOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")) + rapid.String().Draw(t, "text")
		once := plain.Text(s)
		assert.True(t, plain.Is(once))
		assert.Equal(t, once, plain.Text(once))
		assert.Equal(t, utf8.RuneCountInString(s), utf8.RuneCountInString(once))
	})
}

func TestJSONSaysTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.String().Draw(t, "text") + "\u202e\U000e0041"
		doc, err := json.MarshalIndent(map[string]string{s: s}, "", "  ")
		require.NoError(t, err)
		out := plain.JSON(doc)
		var a, b map[string]string
		require.NoError(t, json.Unmarshal(doc, &a))
		require.NoError(t, json.Unmarshal(out, &b))
		assert.Equal(t, a, b)
		for _, r := range string(out) {
			assert.True(t, r == '\n' || plain.Is(string(r)), "%q", r)
		}
	})
}

func TestFew(t *testing.T) {
	assert.Equal(t, []string{"a", "b"}, plain.Few([]string{"a", "b"}, 2, "letters"))
	assert.Equal(t, []string{"a", "b", "And 1 more letters; no more than 2 are listed."}, plain.Few([]string{"a", "b", "c"}, 2, "letters"))
}

func TestSpell(t *testing.T) {
	for want, sec := range map[string]float64{"0 s": 0, "59 s": 59.4, "1 min 0 s": 59.6, "6 min 2 s": 362, "59 min 59 s": 3599, "1 h 0 min": 3600, "26 h 1 min": 93675} {
		assert.Equal(t, want, plain.Spell(sec))
	}
}

func TestWords(t *testing.T) {
	assert.Equal(t, "1 take", plain.Count(1, "take"))
	assert.Equal(t, "0 takes, 2 frames", plain.Count(0, "take")+", "+plain.Count(int64(2), "frame"))
	assert.Equal(t, "It closes.", plain.Sentence("it closes"))
}
