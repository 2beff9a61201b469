package mediasize_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/exact"
	"seamrail/motion/edit/mediasize"
)

func TestSizes(t *testing.T) {
	for text, bytes := range map[string]string{
		"128 GB": "128000000000", "2.4MB": "2400000", " 1 GiB ": "1073741824", "7 B": "7", "64 KiB": "65536", "0.5 TB": "500000000000",
	} {
		v, err := mediasize.ParseSize(text)
		require.NoError(t, err, text)
		assert.Equal(t, bytes, v.String(), text)
	}
}

func TestRates(t *testing.T) {
	for text, bytes := range map[string]string{
		"400 Mbit/s": "50000000", "50 MB/s": "50000000", "1 bit/s": "1/8", "2.5 Gbit/s": "312500000",
	} {
		v, err := mediasize.ParseRate(text)
		require.NoError(t, err, text)
		assert.Equal(t, bytes, v.String(), text)
	}
}

func TestWhatIsNoSizeAndNoRate(t *testing.T) {
	for text, says := range map[string]string{
		"": "one of TB", "128": "one of TB", "128 Gb": "one of TB", "GB": "must begin with a number", "1.2.3 GB": "begin with a number",
		"0 GB": "above 0", "-1 GB": "one of TB", "2000 TB": "above 0 and at most", "400 Mbit/s": "one of TB",
	} {
		_, err := mediasize.ParseSize(text)
		assert.ErrorContains(t, err, says, text)
	}
	_, err := mediasize.ParseRate("400 Mb/s")
	assert.ErrorContains(t, err, `such as "400 Mbit/s"`)
}

func TestSizeText(t *testing.T) {
	for bytes, text := range map[int64]string{
		0: "0 B", 999: "999 B", 1000: "1 kB", 1_234_567: "1.23 MB", 128_000_000_000: "128 GB", 2_500_000_000_000: "2.5 TB",
	} {
		assert.Equal(t, text, mediasize.SizeText(exact.Int(bytes)))
	}
}

func FuzzParse(f *testing.F) {
	f.Add("400 Mbit/s")
	f.Add("1 GiB")
	f.Fuzz(func(t *testing.T, text string) {
		for _, parse := range []func(string) (exact.Rat, error){mediasize.ParseSize, mediasize.ParseRate} {
			if v, err := parse(text); err == nil && v.Sign() <= 0 {
				t.Fatalf("%q is %s", text, v)
			}
		}
	})
}
