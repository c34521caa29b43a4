package solution

// The coefficients of Laliberte (2009), doi 10.1021/je8008123, as tabulated in
// the open data set of the Python library chemicals: c for density, a for heat
// capacity. Temperatures are in C, w is a mass fraction.

// span is the range of a fit: temperatures in C, and a mass fraction up to w.
type span struct{ low, high, w float64 }

// laliberte holds the two fits of one salt.
type laliberte struct {
	c       [5]float64
	density span
	a       [6]float64
	// heatLow is the temperature in C from which the heat capacity was fitted.
	heatLow float64
}

func laliberteTable() [saltCount]laliberte {
	return [saltCount]laliberte{
		NaCl: {
			c:       [5]float64{-0.00324112223655149, 0.0636354335906616, 1.01371399467365, 0.0145951015210159, 3317.34854426537},
			density: span{0, 140, 0.26589930421877},
			a:       [6]float64{-0.0693559668993322, -0.0782134167486952, 3.84798479408635, -11.2762109247072, 8.73187698542672, 1.81245930472755},
			heatLow: 2,
		},
		KCl: {
			c:       [5]float64{-0.855928945959145, 6.04073571306402, 2.81787416217166, 0.0253924645877338, 2681.61723465886},
			density: span{5, 125, 0.264280379722009},
			a:       [6]float64{-1.63952917771592, -0.00779461704655488, 0.328422657249137, -3.76872441235535, 0.34049805034805, -0.147984783420473},
			heatLow: 5,
		},
		CaCl2: {
			c:       [5]float64{-9.72893747074295, 14.7005352975276, 4.19033341468332, 0.0397403624277021, 2708.12778894614},
			density: span{15, 126.7, 0.5132},
			a:       [6]float64{-1.3892271378464, -0.0142491341618564, 0.578247429749066, -0.785339471977917, 4.39895341629224, 1.12685593623411},
			heatLow: 25,
		},
		MgCl2: {
			c:       [5]float64{-0.0215001423271867, 0.0441202083909434, 1.53227586827304, -0.0098078506056196, -3478.36496883693},
			density: span{0, 98.67, 0.323755961314361},
			a:       [6]float64{-1.34606864033233, -0.0185542566558278, 0.846522211009386, -3.54621764242775, 6.64217196115805, 3.38082843051388},
			heatLow: 5,
		},
	}
}
