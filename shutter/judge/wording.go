package judge

import (
	"fmt"
	"strings"

	"earshot/shutter"
)

// firingsText names firings by their number in the list, counted from 1:
// "firing 2", "firings 2, 3 and 5".
func firingsText(indices []int) string {
	numbers := make([]string, len(indices))
	for i, v := range indices {
		numbers[i] = fmt.Sprint(v + 1)
	}
	if len(numbers) == 1 {
		return "firing " + numbers[0]
	}
	return "firings " + listText(numbers)
}

// marksText names marks: "1/2", "1/2, 1/4 and 1/8".
func marksText(marks []shutter.Mark) string {
	labels := make([]string, len(marks))
	for i, m := range marks {
		labels[i] = m.Label
	}
	return listText(labels)
}

// listText joins words as they are spoken: "a, b and c".
func listText(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

func speedsCount(n int) string {
	if n == 1 {
		return "1 speed was"
	}
	return fmt.Sprintf("%d speeds were", n)
}

func timesText(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
