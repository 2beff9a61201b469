package plain

import "fmt"

// Few returns a list of at most so many, and where there are more, how many: what
// goes on for ever is not read.
func Few(list []string, most int, what string) []string {
	if len(list) <= most {
		return list
	}
	return append(append([]string{}, list[:most]...), fmt.Sprintf("And %d more %s; no more than %d are listed.", len(list)-most, what, most))
}

// Count prints "1 key", "3 keys".
func Count[N int | int64](n N, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
