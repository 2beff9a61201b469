package motion_test

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// numbered is what is said to be a DOI or an ISBN. What is behind it is cut off by trimmed.
var numbered = regexp.MustCompile(`\b(DOI|ISBN)[: ]\s*(\S+)|doi\.org/(\S+)`)

// numbers are the DOIs and ISBNs of a text, as "DOI 10.1/x".
func numbers(text string) (out []string) {
	for _, m := range numbered.FindAllStringSubmatch(text, -1) {
		kind := m[1]
		if m[3] != "" {
			kind = "DOI"
		}
		out = append(out, kind+" "+trimmed(m[2]+m[3]))
	}
	return out
}

// trimmed is a number without what ends its sentence. A DOI may have brackets in it.
func trimmed(s string) string {
	for s != "" {
		last := rune(s[len(s)-1])
		closes := last == ')' && strings.Count(s, "(") < strings.Count(s, ")")
		if !closes && !strings.ContainsRune(".,;:", last) {
			break
		}
		s = s[:len(s)-1]
	}
	return s
}

// doi is the syntax of ISO 26324, as far as the numbers here go.
var doi = regexp.MustCompile(`^10\.\d{4,9}/[-._;()/:A-Za-z0-9]+$`)

// wrong tells what is wrong with a DOI or an ISBN, "" if nothing.
func wrong(number string) string {
	kind, n, _ := strings.Cut(number, " ")
	if kind == "DOI" {
		if !doi.MatchString(n) {
			return "not the syntax of a DOI"
		}
		return ""
	}
	digits := strings.ReplaceAll(n, "-", "")
	switch len(digits) {
	case 10:
		return checked(digits, 11, func(i int) int { return 10 - i })
	case 13:
		return checked(digits, 10, func(i int) int { return 1 + 2*(i%2) })
	}
	return "neither 10 nor 13 digits"
}

// checked weighs digits, the last of ten being X for ten; the sum must be divisible.
func checked(digits string, by int, weight func(i int) int) string {
	sum := 0
	for i, c := range digits {
		v := int(c - '0')
		if c == 'X' && i == 9 && len(digits) == 10 {
			v = 10
		} else if v < 0 || v > 9 {
			return "not a digit"
		}
		sum += v * weight(i)
	}
	if sum%by != 0 {
		return "the check digit is wrong"
	}
	return ""
}

func TestNumbersOfSourcesAreListed(t *testing.T) {
	_, rows := listed(t)
	list := map[string]bool{}
	for _, s := range rows {
		for _, n := range numbers(s.number) {
			list[n] = false
		}
	}
	for _, r := range remarks(t) {
		for _, n := range numbers(r.text) {
			if _, ok := list[n]; assert.True(t, ok, "%s: %s is not in the list", r.file, n) {
				list[n] = true
			}
			assert.Empty(t, wrong(n), "%s: %s", r.file, n)
		}
	}
	for n, used := range list {
		assert.True(t, used, "%s stands at no formula", n)
		assert.Empty(t, wrong(n), n)
	}
}

// standard is a standard by its number; of ISO only where a year or a part follows, as
// sensitivities are written alike.
var standard = regexp.MustCompile(`\b(?:(?:ISO/IEC|RFC|NISTIR|IEC|IEEE|JCGM|VDI) \d{3,}[\d-]*` +
	`|(?:WCAG|SMPTE ST|CIE S) \d[\d-]*|ECMA-\d+|ISO \d+(?:-\d+|:\d{4}))`)

func TestStandardsAreListed(t *testing.T) {
	_, rows := listed(t)
	found := 0
	for _, r := range remarks(t) {
		for _, name := range standard.FindAllString(r.text, -1) {
			found++
			named := newRemark(r.file, name)
			is := func(s source) bool { return s.cites(named) || strings.HasPrefix(s.key, name) }
			assert.True(t, slices.ContainsFunc(rows, is), "%s: %s is not in the list", r.file, name)
		}
	}
	require.Greater(t, found, 30, "standards that were found")
}

func TestWrongNumbersAreFound(t *testing.T) {
	for text, want := range map[string]string{
		"(A, 1979, DOI 10.1016/0020-0190(79)90072-3).": "DOI 10.1016/0020-0190(79)90072-3",
		"see https://doi.org/10.1137/0710036.":         "DOI 10.1137/0710036",
		"chapter 1, ISBN 0-07-137081-1): on":           "ISBN 0-07-137081-1",
	} {
		require.Equal(t, []string{want}, numbers(text))
		require.Empty(t, wrong(want))
	}
	require.Empty(t, wrong("ISBN 0-8044-2957-X"))
	for _, n := range []string{"DOI 10.1137", "DOI 11.1137/0710036", "DOI 10.1137/071 0036",
		"ISBN 0-07-137081-2", "ISBN 978-0-07-352935-5", "ISBN 978-0-07-352935-X", "ISBN 978-0-07-35293"} {
		require.NotEmpty(t, wrong(n), n)
	}
}

var (
	memory = regexp.MustCompile(`(?i)from memory`)
	// reasoned is a reason that follows at once: ": ...", "as ..." or "because ...".
	reasoned = regexp.MustCompile(`(?i)from memory(: |,? as |,? because )\pL|from memory: \pN`)
)

func TestWhatIsFromMemoryHasAReason(t *testing.T) {
	for _, r := range remarks(t) {
		assert.Len(t, reasoned.FindAllString(r.text, -1), len(memory.FindAllString(r.text, -1)),
			"%s says that something is from memory, and not why: %s", r.file, r.text)
	}
	require.False(t, reasoned.MatchString("(Norton, from memory)"))
	require.True(t, reasoned.MatchString("(from memory, as the standard is sold)"))
}
