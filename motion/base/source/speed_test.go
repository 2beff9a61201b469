package source_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/source"
	"seamrail/motion/plan/sample/spent"
)

// most is how many keys and values in lists a document of these tests has, below what is
// read; its values are as long as it takes.
const most = 2400

// many are n texts with commas between, so long that all have so many bytes.
func many(n, bytes int, one func(i int, filling string) string) string {
	filling := strings.Repeat("å", max(bytes/n-16, 2)/2)
	parts := make([]string, n)
	for i := range parts {
		parts[i] = one(i, filling)
	}
	return strings.Join(parts, "")
}

// long are documents of a number of bytes, each of which something was once quadratic
// for, or might be.
var long = map[string]func(bytes int) string{
	"texts in one line": func(bytes int) string {
		return "ends = [" + many(most, bytes, func(_ int, f string) string { return `"` + f + `",` }) + "]\n"
	},
	"texts, a line each": func(bytes int) string {
		return "ends = [\n" + many(most, bytes, func(_ int, f string) string { return `"` + f + "\",\n" }) + "]\n"
	},
	"numbers": func(bytes int) string {
		return "ends = [" + many(most, bytes, func(_ int, f string) string { return "0." + strings.Repeat("1", len(f)) + "," }) + "]\n"
	},
	"lists in a list": func(bytes int) string {
		return "ends = [" + many(most/2, bytes, func(_ int, f string) string { return `["` + f + `"],` }) + "]\n"
	},
	"tables in a line": func(bytes int) string {
		return "keys = [" + many(most/3, bytes, func(_ int, f string) string { return `{from = "` + f + `", to = "1 mm"},` }) + "]\n"
	},
	"tables of a list": func(bytes int) string {
		return many(most/3, bytes, func(_ int, f string) string { return "[[keys]]\nfrom = \"" + f + "\"\n" })
	},
	"tables by name": func(bytes int) string {
		return many(most/4, bytes, func(i int, f string) string { return fmt.Sprintf("[axis.a%d]\nfrom = \"%s\"\n", i, f) })
	},
	"long keys": func(bytes int) string {
		return "[axis]\n" + many(most*2/3, bytes, func(i int, f string) string {
			return fmt.Sprintf("%s%d.from = \"1 mm\"\n", strings.Repeat("k", len(f)), i)
		})
	},
	"comments": func(bytes int) string {
		return "title = \"a\"\n" + strings.Repeat("# a\n", bytes/4)
	},
	"comments in a list": func(bytes int) string {
		return "ends = [\n" + strings.Repeat("# a\n", bytes/4) + "]\n"
	},
	"one long text":  func(bytes int) string { return "title = \"" + strings.Repeat("å", bytes/2) + "\"\n" },
	"empty lines":    func(bytes int) string { return "title = \"a\"\n" + strings.Repeat("\n", bytes) },
	"a list of keys": func(bytes int) string { return strings.Repeat("k = 1\n", bytes/6) },
	"names misspelt": func(bytes int) string {
		return many(most, bytes, func(i int, f string) string { return fmt.Sprintf("k%d = \"%s\"\n", i, f) })
	},
	"a list that is too long": func(bytes int) string { return "ends = [" + strings.Repeat(`"a",`, bytes/4) + "]\n" },
	"brackets that never end": func(bytes int) string { return "ends = " + strings.Repeat("[", bytes) },
	"a key too deep":          func(bytes int) string { return strings.Repeat("a.", bytes/2) + "a = 1\n" },
}

// everything is all that is done with a document that a page is told of: it is read, its
// values are listed, and one of them is changed.
func everything(data []byte) {
	r := &source.Report{File: "f.toml"}
	d, ok := source.Parse("", data, r)
	if ok {
		var into document
		d.Bind(&into, r)
		d.Values()
	}
	_ = r.Faults.Error()
	source.Tree(data)
	_, _ = source.Set("f.toml", data, "title", "another")
}

// Eight times as long a document takes eight times as long. Three times more than that is
// let go, and several tries, for caches and what is collected meanwhile: were something
// quadratic, it would be sixty-four times at every try.
func TestTimeGrowsWithTheLength(t *testing.T) {
	const tries, slack, least = 10, 3, time.Millisecond
	for name, of := range long {
		t.Run(name, func(t *testing.T) {
			short, long := []byte(of(100_000)), []byte(of(800_000))
			require.LessOrEqual(t, len(long), source.MaxBytes)
			one, eight := time.Hour, 8*slack*time.Hour
			for try := 0; try < tries && eight >= 8*slack*one; try++ {
				one = min(one, max(least, spent.By(func() { everything(short) })))
				eight = min(eight, spent.By(func() { everything(long) }))
			}
			t.Logf("%v, %v: a factor of %.1f a doubling", one, eight, math.Cbrt(float64(eight)/float64(one)))
			assert.Less(t, eight, 8*slack*one)
		})
	}
}
