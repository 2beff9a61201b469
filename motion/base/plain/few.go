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
