package drawer

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// A spreadsheet may make a date of 1/30, 1/8 or 1/60. It shows it as numbers with a year, as
// the name of a month with a day or a year, or as the number of days since 1900.
var (
	numbersDate = regexp.MustCompile(`^(\d{1,4})[-/.]\s?(\d{1,2})[-/.]\s?(\d{1,4})( \d{1,2}:\d\d(:\d\d)?)?$`)
	namedDate   = regexp.MustCompile(`^(?:(\d{1,2})[-. /]{1,2})?(\pL{3,9})\.?(?:[-. /]{1,2}(\d{1,4}))?$`)
	bareDate    = regexp.MustCompile(`^[2-6]\d{4}$`)
)

// months by the first letters that tell them, in the languages whose spreadsheets we
// could think of: English, German, French, Spanish, Italian, Dutch (from memory).
var months = strings.Fields("jan,ene,gen feb,fév,fev mar,mär,mrz,maa,mrt apr,avr,abr may,mai,mag,mei jun,juin,giu jul,juil,lug aug,aoû,aou,ago sep,set okt,oct,ott nov dec,dez,déc,dic")

func monthNamed(word string) int {
	word = strings.ToLower(word)
	for m, names := range months {
		for _, name := range strings.Split(names, ",") {
			if strings.HasPrefix(word, name) {
				return m + 1
			}
		}
	}
	return 0
}

// datedSpeed says what to write instead of a date that was once a speed; it is empty
// where value is no date. A speed of 1 over something has a 1 in its date, and the
// other number is what was under the line.
func datedSpeed(value string) string {
	const asText = "format the column as text, or put an s behind each speed"
	day, month, year := dateOf(value)
	under := 0
	switch {
	case month == 0 && bareDate.MatchString(value):
		return "the speed anew, such as 1/30s; " + asText
	case month == 0:
		return ""
	case day == 0:
		under = year % 100
	case month == 1:
		under = day
	case day == 1:
		under = month
	}
	if under == 0 {
		return "the speed anew, such as 1/30s; " + asText
	}
	return fmt.Sprintf("1/%ds, if that was it; %s", under, asText)
}

// dateOf reads a date; month is 0 where it is none, day where none is in it. The first
// of two bare numbers counts as the month unless it can't be.
func dateOf(value string) (day, month, year int) {
	if m := numbersDate.FindStringSubmatch(value); m != nil {
		a, b, c := atoi(m[1]), atoi(m[2]), atoi(m[3])
		if len(m[1]) == 4 {
			a, b, c = b, c, a
		}
		if a > 12 || b == 1 {
			a, b = b, a
		}
		if a < 1 || a > 12 || b < 1 || b > 31 {
			return 0, 0, 0
		}
		return b, a, c
	}
	if m := namedDate.FindStringSubmatch(value); m != nil && m[1]+m[3] != "" {
		return atoi(m[1]), monthNamed(m[2]), atoi(m[3])
	}
	return 0, 0, 0
}

func atoi(digits string) int {
	n, _ := strconv.Atoi(digits)
	return n
}
