package starter

import "strings"

// WithoutTable returns a rig file of this package's without its turntable.
func WithoutTable(text []byte) []byte {
	head, rest, found := strings.Cut(string(text), tableBegins)
	if !found {
		return text
	}
	_, stand, _ := strings.Cut(rest, standBegins)
	head = strings.Replace(head, `"Bench rail and table"`, `"Bench rail"`, 1)
	return []byte(head + standBegins + stand)
}

// WithStand returns a rig file of this package's with the display stand that it has
// behind marks.
func WithStand(text []byte) []byte {
	head, rest, found := strings.Cut(string(text), "# [stand.display]\n")
	if !found {
		return text
	}
	var out strings.Builder
	for line := range strings.Lines("# [stand.display]\n" + rest) {
		out.WriteString(strings.TrimLeft(strings.TrimPrefix(line, "#"), " "))
	}
	return []byte(head + out.String())
}
