// Package mediasize reads how much a recording takes and a card holds: bytes, and
// bits a second.
package mediasize

import (
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/exact"
)

// unit is a name and how many bytes it is.
type unit struct {
	name  string
	bytes exact.Rat
}

// The prefixes count in thousands (SI) and, with an i, in 1024s (IEC 80000-13;
// SI Brochure, 9th ed., chapter 3, DOI 10.59161/AUEZ1291). A byte is eight
// bits.
var (
	sizes = []unit{
		{"TB", exact.Int(1e12)}, {"GB", exact.Int(1e9)}, {"MB", exact.Int(1e6)}, {"kB", exact.Int(1e3)}, {"B", exact.Int(1)},
		{"TiB", exact.Int(1 << 40)}, {"GiB", exact.Int(1 << 30)}, {"MiB", exact.Int(1 << 20)}, {"KiB", exact.Int(1 << 10)},
	}
	rates = []unit{
		{"Gbit/s", exact.New(1e9, 8)}, {"Mbit/s", exact.New(1e6, 8)}, {"kbit/s", exact.New(1e3, 8)}, {"bit/s", exact.New(1, 8)},
		{"GB/s", exact.Int(1e9)}, {"MB/s", exact.Int(1e6)}, {"kB/s", exact.Int(1e3)}, {"B/s", exact.Int(1)},
	}
)

// most bounds what is read, in bytes: a thousand terabytes is no card.
var most = exact.Int(1e15)

// ParseSize reads a number of bytes above 0: "128 GB", "2.4 MB", "1 GiB". The
// error says what would do.
func ParseSize(text string) (exact.Rat, error) { return parse(text, sizes, `"128 GB"`) }

// ParseRate reads a rate above 0 as bytes a second: "400 Mbit/s", "50 MB/s".
// The error says what would do.
func ParseRate(text string) (exact.Rat, error) { return parse(text, rates, `"400 Mbit/s"`) }

func parse(text string, units []unit, example string) (exact.Rat, error) {
	number := strings.TrimSpace(text)
	end := strings.IndexFunc(number, func(r rune) bool { return r != '.' && (r < '0' || r > '9') })
	if end < 0 {
		end = len(number)
	}
	name := strings.TrimSpace(number[end:])
	i := slices.IndexFunc(units, func(u unit) bool { return u.name == name })
	if i < 0 {
		return exact.Rat{}, fmt.Errorf("must be a number and one of %s, such as %s", names(units), example)
	}
	v, err := exact.Parse(number[:end])
	if err != nil {
		return exact.Rat{}, fmt.Errorf("must begin with a number, such as %s", example)
	}
	v = v.Mul(units[i].bytes)
	if v.Sign() <= 0 || most.Less(v) {
		return exact.Rat{}, fmt.Errorf("must be above 0 and at most a thousand terabytes, such as %s", example)
	}
	return v, nil
}

func names(units []unit) string {
	out := make([]string, len(units))
	for i, u := range units {
		out[i] = u.name
	}
	return strings.Join(out, ", ")
}

// SizeText prints bytes in the greatest of TB, GB, MB and kB that leaves at least
// 1 of it, with at most two decimals.
func SizeText(bytes exact.Rat) string {
	for _, u := range sizes[:4] {
		if v := bytes.Quo(u.bytes); !v.Less(exact.Int(1)) {
			return v.Decimal(2) + " " + u.name
		}
	}
	return bytes.Decimal(0) + " B"
}
