package recording

// decimal reads a number as a whole multiple of 10^power, exactly: what is
// finer is cut off. The mark before the decimals is a point or a comma.
func decimal(text []byte, power int) (value int64, ok bool) {
	i, negative := 0, false
	if i < len(text) && (text[i] == '-' || text[i] == '+') {
		negative = text[i] == '-'
		i++
	}
	digits, point, seen := i, -1, 0
	for ; i < len(text); i++ {
		switch c := text[i]; {
		case c-'0' <= 9:
			seen++
			continue
		case (c == '.' || c == ',') && point < 0:
			point = i
			continue
		}
		break
	}
	end := i
	if seen == 0 {
		return 0, false
	}
	exponent := 0
	if i < len(text) {
		if text[i]|0x20 != 'e' {
			return 0, false
		}
		if exponent, ok = whole(text[i+1:]); !ok {
			return 0, false
		}
	}
	decimals := 0
	if point >= 0 {
		decimals = end - point - 1
	}
	// The last digit stands for 10^(exponent − decimals); wanted is 10^power.
	drop := power - exponent + decimals
	for k := digits; k < end; k++ {
		if k == point {
			continue
		}
		if left := seen; left <= drop { // finer than asked for
			break
		}
		seen--
		if value > (1<<63-1-9)/10 {
			return 0, false
		}
		value = value*10 + int64(text[k]-'0')
	}
	for ; drop < 0; drop++ {
		if value > (1<<63-1)/10 {
			return 0, false
		}
		if value *= 10; value == 0 {
			break
		}
	}
	if negative {
		value = -value
	}
	return value, true
}

// whole reads a small whole number with a sign, as an exponent is.
func whole(text []byte) (n int, ok bool) {
	negative := len(text) > 0 && text[0] == '-'
	if negative || len(text) > 0 && text[0] == '+' {
		text = text[1:]
	}
	if len(text) == 0 || len(text) > 3 {
		return 0, false
	}
	for _, c := range text {
		if c-'0' > 9 {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	if negative {
		n = -n
	}
	return n, true
}
