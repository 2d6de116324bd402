/** What the Place station answers to what asked.fixture.ts asks. */
export const answers: Readonly<Record<string, string>> = {
  'a usual arm': `
: found true
value: schema 1, criterion lofgren-a, kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.29605, overhangMm 17.296053, offsetDeg 22.985524, linearOffsetMm 93.444761, peakDistortionPercent 0.6183535, peakAtMm 146.05, rmsDistortionPercent 0.40783164, largestErrorDeg 1.8056126, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method closed-form, limits null, asItStands null, pivotChoices null
value.nullPointsMm [65.998046 120.89148]
value.groove: innerMm 60.325, outerMm 146.05, name 12in, source inner RIAA 1963, diameter 4¾ in = 120.65 mm (seen second-hand); outer IEC 98:1958 and RIAA 1963, diameter 11½ in = 292.1 mm (seen second-hand), usualRpm 33.333333
value.exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.31109, overhangMm 17.31109, offsetDeg 23.000474, linearOffsetMm 93.508113, peakDistortionPercent 0.61488728, peakAtMm 60.325, rmsDistortionPercent 0.40899947, largestErrorDeg 1.7954978, largestErrorAtMm 146.05
value.exact.figures.nullPointsMm [65.976868 121.03936]
value.exact.difference: effectiveLengthMm 0.015036368, overhangMm 0.015036368, offsetDeg 0.014949561, peakDistortionPercent -0.0034662158, rmsDistortionPercent 0.0011678276
value.exact.difference.nullPointsMm [-0.021178081 0.14788157]
value.criteria.0: criterion lofgren-a, title Löfgren A: equal peaks, says the three peaks of distortion, at the inner, middle and outer groove, are equal and as low as they can be, source Löfgren 1938 A, Baerwald 1941
value.criteria.0.closedForm: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.29605, overhangMm 17.296053, offsetDeg 22.985524, linearOffsetMm 93.444761, peakDistortionPercent 0.6183535, peakAtMm 146.05, rmsDistortionPercent 0.40783164, largestErrorDeg 1.8056126, largestErrorAtMm 146.05
value.criteria.0.closedForm.nullPointsMm [65.998046 120.89148]
value.criteria.0.exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.31109, overhangMm 17.31109, offsetDeg 23.000474, linearOffsetMm 93.508113, peakDistortionPercent 0.61488728, peakAtMm 60.325, rmsDistortionPercent 0.40899947, largestErrorDeg 1.7954978, largestErrorAtMm 146.05
value.criteria.0.exact.figures.nullPointsMm [65.976868 121.03936]
value.criteria.0.exact.difference: effectiveLengthMm 0.015036368, overhangMm 0.015036368, offsetDeg 0.014949561, peakDistortionPercent -0.0034662158, rmsDistortionPercent 0.0011678276
value.criteria.0.exact.difference.nullPointsMm [-0.021178081 0.14788157]
value.criteria.1: criterion lofgren-b, title Löfgren B: least squares of the overhang, says the least distortion over the whole side with the linear offset of A; more of it at the inner groove, source Löfgren 1938 B, as published
value.criteria.1.closedForm: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.74897, overhangMm 17.748965, offsetDeg 22.93962, linearOffsetMm 93.444761, peakDistortionPercent 1.0040579, peakAtMm 60.325, rmsDistortionPercent 0.36594971, largestErrorDeg 1.99714, largestErrorAtMm 146.05
value.criteria.1.closedForm.nullPointsMm [70.285377 116.60414]
value.criteria.1.exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.74674, overhangMm 17.74674, offsetDeg 22.939845, linearOffsetMm 93.444761, peakDistortionPercent 1.0021481, peakAtMm 60.325, rmsDistortionPercent 0.36594863, largestErrorDeg 1.9961993, largestErrorAtMm 146.05
value.criteria.1.exact.figures.nullPointsMm [70.26235 116.62717]
value.criteria.1.exact.difference: effectiveLengthMm -0.0022255071, overhangMm -0.0022255071, offsetDeg 0.00022510099, peakDistortionPercent -0.0019097859, rmsDistortionPercent -0.0000010798719
value.criteria.1.exact.difference.nullPointsMm [-0.023027185 0.023027185]
value.criteria.2: criterion least-squares, title Least squares: overhang and offset, says the least distortion over the whole side with overhang and offset both free, source the true least-squares optimum of ε/r
value.criteria.2.closedForm: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.65929, overhangMm 17.659286, offsetDeg 22.879589, linearOffsetMm 93.178516, peakDistortionPercent 0.98441176, peakAtMm 60.325, rmsDistortionPercent 0.3658632, largestErrorDeg 2.028337, largestErrorAtMm 146.05
value.criteria.2.closedForm.nullPointsMm [70.164119 116.19291]
value.criteria.2.exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.66407, overhangMm 17.664074, offsetDeg 22.884451, linearOffsetMm 93.199114, peakDistortionPercent 0.98408596, peakAtMm 60.325, rmsDistortionPercent 0.36586158, largestErrorDeg 2.0250144, largestErrorAtMm 146.05
value.criteria.2.exact.figures.nullPointsMm [70.151194 116.24703]
value.criteria.2.exact.difference: effectiveLengthMm 0.0047876753, overhangMm 0.0047876753, offsetDeg 0.0048619244, peakDistortionPercent -0.00032579476, rmsDistortionPercent -0.0000016149563
value.criteria.2.exact.difference.nullPointsMm [-0.01292571 0.054121965]
value.criteria.3: criterion stevenson, title Stevenson: clean inner groove, says no distortion at the innermost groove, equal peaks over the rest, source Stevenson 1966 A
value.criteria.3.closedForm: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 237.41825, overhangMm 15.418253, offsetDeg 21.982979, linearOffsetMm 88.873043, peakDistortionPercent 0.7550005, peakAtMm 146.05, rmsDistortionPercent 0.50031876, largestErrorDeg 2.2042683, largestErrorAtMm 146.05
value.criteria.3.closedForm.nullPointsMm [60.325 117.42109]
value.criteria.3.exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 237.44401, overhangMm 15.444007, offsetDeg 22.006849, linearOffsetMm 88.974406, peakDistortionPercent 0.74965673, peakAtMm 79.733863, rmsDistortionPercent 0.50156488, largestErrorDeg 2.1886821, largestErrorAtMm 146.05
value.criteria.3.exact.figures.nullPointsMm [60.325 117.62381]
value.criteria.3.exact.difference: effectiveLengthMm 0.025753677, overhangMm 0.025753677, offsetDeg 0.023870222, peakDistortionPercent -0.0053437702, rmsDistortionPercent 0.0012461162
value.criteria.3.exact.difference.nullPointsMm [0 0.20272605]
value.curve.0: radiusMm 60.325, trackingErrorDeg 0.74275167, secondHarmonicPercent 0.61565958
value.curve.1: radiusMm 100, trackingErrorDeg -0.9206585, secondHarmonicPercent -0.46036887
value.curve.2: radiusMm 146.05, trackingErrorDeg 1.8056126, secondHarmonicPercent 0.6183535
value.overlays.0: name lofgren-b
value.overlays.0.points.0: radiusMm 60.325, trackingErrorDeg 1.2112154, secondHarmonicPercent 1.0040579
value.overlays.0.points.1: radiusMm 100, trackingErrorDeg -0.63868729, secondHarmonicPercent -0.31935687
value.overlays.0.points.2: radiusMm 146.05, trackingErrorDeg 1.99714, secondHarmonicPercent 0.68399493
value.overlays.1: name least-squares
value.overlays.1.points.0: radiusMm 60.325, trackingErrorDeg 1.1875227, secondHarmonicPercent 0.98441176
value.overlays.1.points.1: radiusMm 100, trackingErrorDeg -0.62540212, secondHarmonicPercent -0.31271348
value.overlays.1.points.2: radiusMm 146.05, trackingErrorDeg 2.028337, secondHarmonicPercent 0.69468838
value.overlays.2: name stevenson
value.overlays.2.points.0: radiusMm 60.325, trackingErrorDeg 0, secondHarmonicPercent 0
value.overlays.2.points.1: radiusMm 100, trackingErrorDeg -0.89660433, secondHarmonicPercent -0.44833876
value.overlays.2.points.2: radiusMm 146.05, trackingErrorDeg 2.2042683, secondHarmonicPercent 0.7550005
value.tolerance: overhangMm 0.5, twistDeg 0.5, spindleToPivotMm 1, draws 100, seed 1, mattersMost spindle-to-pivot
value.tolerance.linear.0: radiusMm 60.325, trackingErrorLowDeg -0.43783844, trackingErrorHighDeg 1.9233418, secondHarmonicLowPercent -0.36290672, secondHarmonicHighPercent 1.5947489
value.tolerance.linear.1: radiusMm 103.1875, trackingErrorLowDeg -1.6161579, trackingErrorHighDeg -0.038336049, secondHarmonicLowPercent -0.78332485, secondHarmonicHighPercent -0.01857592
value.tolerance.linear.2: radiusMm 146.05, trackingErrorLowDeg 1.1448831, trackingErrorHighDeg 2.4663421, secondHarmonicLowPercent 0.39200119, secondHarmonicHighPercent 0.84487044
value.tolerance.monteCarlo.0: radiusMm 60.325, trackingErrorLowDeg -0.1803208, trackingErrorHighDeg 1.7706224, secondHarmonicLowPercent -0.14945826, secondHarmonicHighPercent 1.4680367
value.tolerance.monteCarlo.1: radiusMm 103.1875, trackingErrorLowDeg -1.4914126, trackingErrorHighDeg -0.19316614, secondHarmonicLowPercent -0.72283444, secondHarmonicHighPercent -0.093599938
value.tolerance.monteCarlo.2: radiusMm 146.05, trackingErrorLowDeg 1.2173868, trackingErrorHighDeg 2.3065127, secondHarmonicLowPercent 0.4168333, secondHarmonicHighPercent 0.79005803
value.tolerance.peakDistortionPercent: asSet 0.6183535, median 0.76469127, low 0.55284952, high 1.4680367
value.tolerance.effects.0: setting spindle-to-pivot, tolerance 1, unit mm, peakAtWorstPercent 1.415002, risePercent 0.79664854
value.tolerance.effects.1: setting twist, tolerance 0.5, unit deg, peakAtWorstPercent 1.0302085, risePercent 0.41185504
value.tolerance.effects.2: setting overhang, tolerance 0.5, unit mm, peakAtWorstPercent 1.0024555, risePercent 0.38410199
value.moves []
value.withheld []
`,
  'an effective length at 45 turns': `
: found true
value: schema 1, criterion stevenson, kind pivoted, spindleToPivotMm 221.01718, effectiveLengthMm 230, overhangMm 8.982824, offsetDeg 16.343475, linearOffsetMm 64.72083, peakDistortionPercent 0.1631723, peakAtMm 84.15, rmsDistortionPercent 0.11210263, largestErrorDeg 0.37073045, largestErrorAtMm 84.15, rpm 45, at10CmS true, method closed-form, limits null, asItStands null, pivotChoices null
value.nullPointsMm [53 76.441659]
value.groove: innerMm 53, outerMm 84.15, name 7in, source inner JIS S 8502-1973, diameter over 106 mm; outer IEC 98:1987, diameter 168.3 mm (both seen second-hand), usualRpm 45
value.exact.figures: kind pivoted, spindleToPivotMm 221.01619, effectiveLengthMm 230, overhangMm 8.9838107, offsetDeg 16.344543, linearOffsetMm 64.724944, peakDistortionPercent 0.16299884, peakAtMm 84.15, rmsDistortionPercent 0.1121447, largestErrorDeg 0.37033636, largestErrorAtMm 84.15
value.exact.figures.nullPointsMm [53 76.449888]
value.exact.difference: effectiveLengthMm 0, overhangMm 0.00098662632, offsetDeg 0.0010680983, peakDistortionPercent -0.0001734577, rmsDistortionPercent 0.000042067217
value.exact.difference.nullPointsMm [0 0.0082287123]
value.criteria.0: criterion lofgren-a, title Löfgren A: equal peaks, says the three peaks of distortion, at the inner, middle and outer groove, are equal and as low as they can be, source Löfgren 1938 A, Baerwald 1941
value.criteria.0.closedForm: kind pivoted, spindleToPivotMm 220.35909, effectiveLengthMm 230, overhangMm 9.6409087, offsetDeg 16.873431, linearOffsetMm 66.759447, peakDistortionPercent 0.12773059, peakAtMm 84.15, rmsDistortionPercent 0.086439609, largestErrorDeg 0.2902078, largestErrorAtMm 84.15
value.criteria.0.closedForm.nullPointsMm [56.037838 77.481057]
value.criteria.0.exact.figures: kind pivoted, spindleToPivotMm 220.35876, effectiveLengthMm 230, overhangMm 9.6412355, offsetDeg 16.873863, linearOffsetMm 66.761108, peakDistortionPercent 0.12763848, peakAtMm 65.037604, rmsDistortionPercent 0.08647679, largestErrorDeg 0.28999853, largestErrorAtMm 84.15
value.criteria.0.exact.figures.nullPointsMm [56.035873 77.486343]
value.criteria.0.exact.difference: effectiveLengthMm 0, overhangMm 0.00032673734, offsetDeg 0.00043235433, peakDistortionPercent -0.000092111744, rmsDistortionPercent 0.000037180853
value.criteria.0.exact.difference.nullPointsMm [-0.0019648461 0.0052865658]
value.criteria.1: criterion lofgren-b, title Löfgren B: least squares of the overhang, says the least distortion over the whole side with the linear offset of A; more of it at the inner groove, source Löfgren 1938 B, as published
value.criteria.1.closedForm: kind pivoted, spindleToPivotMm 220.27581, effectiveLengthMm 230, overhangMm 9.7241938, offsetDeg 16.873431, linearOffsetMm 66.759447, peakDistortionPercent 0.19075141, peakAtMm 53, rmsDistortionPercent 0.076101489, largestErrorDeg 0.34706796, largestErrorAtMm 84.15
value.criteria.1.closedForm.nullPointsMm [57.913284 75.605611]
value.criteria.1.exact.figures: kind pivoted, spindleToPivotMm 220.27597, effectiveLengthMm 230, overhangMm 9.7240295, offsetDeg 16.873431, linearOffsetMm 66.759447, peakDistortionPercent 0.190627, peakAtMm 53, rmsDistortionPercent 0.076101446, largestErrorDeg 0.34695579, largestErrorAtMm 84.15
value.criteria.1.exact.figures.nullPointsMm [57.909193 75.609701]
value.criteria.1.exact.difference: effectiveLengthMm 0, overhangMm -0.00016430733, offsetDeg 0, peakDistortionPercent -0.00012441058, rmsDistortionPercent -4.3140554e-8
value.criteria.1.exact.difference.nullPointsMm [-0.0040904261 0.0040904261]
value.criteria.2: criterion least-squares, title Least squares: overhang and offset, says the least distortion over the whole side with overhang and offset both free, source the true least-squares optimum of ε/r
value.criteria.2.closedForm: kind pivoted, spindleToPivotMm 220.30472, effectiveLengthMm 230, overhangMm 9.6952755, offsetDeg 16.847496, linearOffsetMm 66.659813, peakDistortionPercent 0.18697943, peakAtMm 53, rmsDistortionPercent 0.076068683, largestErrorDeg 0.35326029, largestErrorAtMm 84.15
value.criteria.2.closedForm.nullPointsMm [57.84492 75.474706]
value.criteria.2.exact.figures: kind pivoted, spindleToPivotMm 220.31102, effectiveLengthMm 230, overhangMm 9.6889816, offsetDeg 16.841997, linearOffsetMm 66.638687, peakDistortionPercent 0.1860566, peakAtMm 53, rmsDistortionPercent 0.076067605, largestErrorDeg 0.35446201, largestErrorAtMm 84.15
value.criteria.2.exact.figures.nullPointsMm [57.826226 75.451149]
value.criteria.2.exact.difference: effectiveLengthMm 0, overhangMm -0.0062939132, offsetDeg -0.0054986455, peakDistortionPercent -0.00092283489, rmsDistortionPercent -0.0000010780892
value.criteria.2.exact.difference.nullPointsMm [-0.018694798 -0.023557009]
value.criteria.3: criterion stevenson, title Stevenson: clean inner groove, says no distortion at the innermost groove, equal peaks over the rest, source Stevenson 1966 A
value.criteria.3.closedForm: kind pivoted, spindleToPivotMm 221.01718, effectiveLengthMm 230, overhangMm 8.982824, offsetDeg 16.343475, linearOffsetMm 64.72083, peakDistortionPercent 0.1631723, peakAtMm 84.15, rmsDistortionPercent 0.11210263, largestErrorDeg 0.37073045, largestErrorAtMm 84.15
value.criteria.3.closedForm.nullPointsMm [53 76.441659]
value.criteria.3.exact.figures: kind pivoted, spindleToPivotMm 221.01619, effectiveLengthMm 230, overhangMm 8.9838107, offsetDeg 16.344543, linearOffsetMm 64.724944, peakDistortionPercent 0.16299884, peakAtMm 84.15, rmsDistortionPercent 0.1121447, largestErrorDeg 0.37033636, largestErrorAtMm 84.15
value.criteria.3.exact.figures.nullPointsMm [53 76.449888]
value.criteria.3.exact.difference: effectiveLengthMm 0, overhangMm 0.00098662632, offsetDeg 0.0010680983, peakDistortionPercent -0.0001734577, rmsDistortionPercent 0.000042067217
value.criteria.3.exact.difference.nullPointsMm [0 0.0082287123]
value.curve.0: radiusMm 53, trackingErrorDeg 0, secondHarmonicPercent 0
value.curve.1: radiusMm 84.15, trackingErrorDeg 0.37073045, secondHarmonicPercent 0.1631723
value.overlays.0: name lofgren-a
value.overlays.0.points.0: radiusMm 53, trackingErrorDeg 0.18272841, secondHarmonicPercent 0.12769325
value.overlays.0.points.1: radiusMm 84.15, trackingErrorDeg 0.2902078, secondHarmonicPercent 0.12773059
value.overlays.1: name lofgren-b
value.overlays.1.points.0: radiusMm 53, trackingErrorDeg 0.2729632, secondHarmonicPercent 0.19075141
value.overlays.1.points.1: radiusMm 84.15, trackingErrorDeg 0.34706796, secondHarmonicPercent 0.15275729
value.overlays.2: name least-squares
value.overlays.2.points.0: radiusMm 53, trackingErrorDeg 0.26756562, secondHarmonicPercent 0.18697943
value.overlays.2.points.1: radiusMm 84.15, trackingErrorDeg 0.35326029, secondHarmonicPercent 0.15548283
value.tolerance: overhangMm 0.5, twistDeg 0.5, spindleToPivotMm 1, draws 100, seed 3, mattersMost spindle-to-pivot
value.tolerance.linear.0: radiusMm 53, trackingErrorLowDeg -1.3036888, trackingErrorHighDeg 1.3036888, secondHarmonicLowPercent -0.91119062, secondHarmonicHighPercent 0.91119062
value.tolerance.linear.1: radiusMm 68.575, trackingErrorLowDeg -1.2841847, trackingErrorHighDeg 0.82062639, secondHarmonicLowPercent -0.69369833, secondHarmonicHighPercent 0.44324679
value.tolerance.linear.2: radiusMm 84.15, trackingErrorLowDeg -0.53363096, trackingErrorHighDeg 1.2750919, secondHarmonicLowPercent -0.2348744, secondHarmonicHighPercent 0.56130032
value.tolerance.monteCarlo.0: radiusMm 53, trackingErrorLowDeg -1.0740756, trackingErrorHighDeg 1.2402987, secondHarmonicLowPercent -0.75066486, secondHarmonicHighPercent 0.86687107
value.tolerance.monteCarlo.1: radiusMm 68.575, trackingErrorLowDeg -1.1080667, trackingErrorHighDeg 0.73143759, secondHarmonicLowPercent -0.59853629, secondHarmonicHighPercent 0.39506749
value.tolerance.monteCarlo.2: radiusMm 84.15, trackingErrorLowDeg -0.38311145, trackingErrorHighDeg 1.168731, secondHarmonicLowPercent -0.1686218, secondHarmonicHighPercent 0.51446628
value.tolerance.peakDistortionPercent: asSet 0.1631723, median 0.32606186, low 0.1613014, high 0.93660347
value.tolerance.effects.0: setting spindle-to-pivot, tolerance 1, unit mm, peakAtWorstPercent 0.77115302, risePercent 0.60798072
value.tolerance.effects.1: setting twist, tolerance 0.5, unit deg, peakAtWorstPercent 0.46316955, risePercent 0.29999725
value.tolerance.effects.2: setting overhang, tolerance 0.5, unit mm, peakAtWorstPercent 0.43914348, risePercent 0.27597118
value.moves []
value.withheld []
`,
  'an overhang, weighted by the music': `
: found true
value: schema 1, criterion even-music, kind pivoted, spindleToPivotMm 245.22393, effectiveLengthMm 260.22393, overhangMm 15, offsetDeg 20.134357, linearOffsetMm 89.574999, peakDistortionPercent 0.76112529, peakAtMm 146.05, rmsDistortionPercent 0.34748657, largestErrorDeg 2.2221322, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method closed-form, limits null, asItStands null, pivotChoices null
value.nullPointsMm [68.552095 110.5979]
value.groove: innerMm 60.325, outerMm 146.05, name 12in, source inner RIAA 1963, diameter 4¾ in = 120.65 mm (seen second-hand); outer IEC 98:1958 and RIAA 1963, diameter 11½ in = 292.1 mm (seen second-hand), usualRpm 33.333333
value.exact.figures: kind pivoted, spindleToPivotMm 260.39023, effectiveLengthMm 275.39023, overhangMm 15, offsetDeg 19.620973, linearOffsetMm 92.475043, peakDistortionPercent 0.78951887, peakAtMm 60.325, rmsDistortionPercent 0.31189484, largestErrorDeg 1.7913279, largestErrorAtMm 146.05
value.exact.figures.nullPointsMm [69.783045 115.16704]
value.exact.difference: effectiveLengthMm 15.166297, overhangMm 0, offsetDeg -0.51338415, peakDistortionPercent 0.028393576, rmsDistortionPercent -0.035591729
value.exact.difference.nullPointsMm [1.2309501 4.5691387]
value.criteria.0: criterion lofgren-a, title Löfgren A: equal peaks, says the three peaks of distortion, at the inner, middle and outer groove, are equal and as low as they can be, source Löfgren 1938 A, Baerwald 1941
value.criteria.0.closedForm: kind pivoted, spindleToPivotMm 258.45337, effectiveLengthMm 273.45337, overhangMm 15, offsetDeg 19.981762, linearOffsetMm 93.444761, peakDistortionPercent 0.52904124, peakAtMm 146.05, rmsDistortionPercent 0.34970066, largestErrorDeg 1.5449549, largestErrorAtMm 146.05
value.criteria.0.closedForm.nullPointsMm [65.998046 120.89148]
value.criteria.0.exact.figures: kind pivoted, spindleToPivotMm 258.62925, effectiveLengthMm 273.62925, overhangMm 15, offsetDeg 19.978719, linearOffsetMm 93.491209, peakDistortionPercent 0.52649981, peakAtMm 146.05, rmsDistortionPercent 0.35019349, largestErrorDeg 1.5375368, largestErrorAtMm 146.05
value.criteria.0.exact.figures.nullPointsMm [65.982511 120.99991]
value.criteria.0.exact.difference: effectiveLengthMm 0.17588016, overhangMm 0, offsetDeg -0.0030422149, peakDistortionPercent -0.0025414254, rmsDistortionPercent 0.00049283549
value.criteria.0.exact.difference.nullPointsMm [-0.015535839 0.10843108]
value.criteria.1: criterion lofgren-b, title Löfgren B: least squares of the overhang, says the least distortion over the whole side with the linear offset of A; more of it at the inner groove, source Löfgren 1938 B, as published
value.criteria.1.closedForm: kind pivoted, spindleToPivotMm 265.68554, effectiveLengthMm 280.68554, overhangMm 15, offsetDeg 19.445872, linearOffsetMm 93.444761, peakDistortionPercent 0.83637135, peakAtMm 60.325, rmsDistortionPercent 0.3050675, largestErrorDeg 1.6621141, largestErrorAtMm 146.05
value.criteria.1.closedForm.nullPointsMm [70.285377 116.60414]
value.criteria.1.exact.figures: kind pivoted, spindleToPivotMm 266.47617, effectiveLengthMm 281.47617, overhangMm 15, offsetDeg 19.389063, linearOffsetMm 93.444761, peakDistortionPercent 0.86911578, peakAtMm 60.325, rmsDistortionPercent 0.30462369, largestErrorDeg 1.674522, largestErrorAtMm 146.05
value.criteria.1.exact.figures.nullPointsMm [70.803243 116.08628]
value.criteria.1.exact.difference: effectiveLengthMm 0.79062368, overhangMm 0, offsetDeg -0.056809135, peakDistortionPercent 0.032744428, rmsDistortionPercent -0.00044380705
value.criteria.1.exact.difference.nullPointsMm [0.51786558 -0.51786558]
value.criteria.2: criterion least-squares, title Least squares: overhang and offset, says the least distortion over the whole side with overhang and offset both free, source the true least-squares optimum of ε/r
value.criteria.2.closedForm: kind pivoted, spindleToPivotMm 264.25244, effectiveLengthMm 279.25244, overhangMm 15, offsetDeg 19.491758, linearOffsetMm 93.178516, peakDistortionPercent 0.8245613, peakAtMm 60.325, rmsDistortionPercent 0.30666364, largestErrorDeg 1.6973857, largestErrorAtMm 146.05
value.criteria.2.closedForm.nullPointsMm [70.164119 116.19291]
value.criteria.2.exact.figures: kind pivoted, spindleToPivotMm 279.18667, effectiveLengthMm 294.18667, overhangMm 15, offsetDeg 19.006005, linearOffsetMm 95.806962, peakDistortionPercent 0.96670711, peakAtMm 60.325, rmsDistortionPercent 0.29823099, largestErrorDeg 1.3781576, largestErrorAtMm 146.05
value.criteria.2.exact.figures.nullPointsMm [71.757559 119.85636]
value.criteria.2.exact.difference: effectiveLengthMm 14.934226, overhangMm 0, offsetDeg -0.48575379, peakDistortionPercent 0.14214581, rmsDistortionPercent -0.0084326424
value.criteria.2.exact.difference.nullPointsMm [1.5934393 3.6634528]
value.criteria.3: criterion stevenson, title Stevenson: clean inner groove, says no distortion at the innermost groove, equal peaks over the rest, source Stevenson 1966 A
value.criteria.3.closedForm: kind pivoted, spindleToPivotMm 228.61423, effectiveLengthMm 243.61423, overhangMm 15, offsetDeg 21.395924, linearOffsetMm 88.873043, peakDistortionPercent 0.73243909, peakAtMm 146.05, rmsDistortionPercent 0.48563908, largestErrorDeg 2.1384611, largestErrorAtMm 146.05
value.criteria.3.closedForm.nullPointsMm [60.325 117.42109]
value.criteria.3.exact.figures: kind pivoted, spindleToPivotMm 228.99689, effectiveLengthMm 243.99689, overhangMm 15, offsetDeg 21.384715, linearOffsetMm 88.968191, peakDistortionPercent 0.72631768, peakAtMm 79.731959, rmsDistortionPercent 0.48594951, largestErrorDeg 2.1206051, largestErrorAtMm 146.05
value.criteria.3.exact.figures.nullPointsMm [60.325 117.61138]
value.criteria.3.exact.difference: effectiveLengthMm 0.38265651, overhangMm 0, offsetDeg -0.011209596, peakDistortionPercent -0.0061214145, rmsDistortionPercent 0.00031043785
value.criteria.3.exact.difference.nullPointsMm [0 0.19029748]
value.criteria.4: criterion even-music, title Weighted by where the music lies, says the least distortion over the music, by a weight over radius that you give, source least squares of ε/r under the given weight
value.criteria.4.closedForm: kind pivoted, spindleToPivotMm 245.22393, effectiveLengthMm 260.22393, overhangMm 15, offsetDeg 20.134357, linearOffsetMm 89.574999, peakDistortionPercent 0.76112529, peakAtMm 146.05, rmsDistortionPercent 0.34748657, largestErrorDeg 2.2221322, largestErrorAtMm 146.05
value.criteria.4.closedForm.nullPointsMm [68.552095 110.5979]
value.criteria.4.exact.figures: kind pivoted, spindleToPivotMm 260.39023, effectiveLengthMm 275.39023, overhangMm 15, offsetDeg 19.620973, linearOffsetMm 92.475043, peakDistortionPercent 0.78951887, peakAtMm 60.325, rmsDistortionPercent 0.31189484, largestErrorDeg 1.7913279, largestErrorAtMm 146.05
value.criteria.4.exact.figures.nullPointsMm [69.783045 115.16704]
value.criteria.4.exact.difference: effectiveLengthMm 15.166297, overhangMm 0, offsetDeg -0.51338415, peakDistortionPercent 0.028393576, rmsDistortionPercent -0.035591729
value.criteria.4.exact.difference.nullPointsMm [1.2309501 4.5691387]
value.curve.0: radiusMm 60.325, trackingErrorDeg 0.80602869, secondHarmonicPercent 0.66811593
value.curve.1: radiusMm 100, trackingErrorDeg -0.39030548, secondHarmonicPercent -0.19515576
value.curve.2: radiusMm 146.05, trackingErrorDeg 2.2221322, secondHarmonicPercent 0.76112529
value.overlays.0: name lofgren-a
value.overlays.0.points.0: radiusMm 60.325, trackingErrorDeg 0.63622558, secondHarmonicPercent 0.52735328
value.overlays.0.points.1: radiusMm 100, trackingErrorDeg -0.78990125, secondHarmonicPercent -0.39497565
value.overlays.0.points.2: radiusMm 146.05, trackingErrorDeg 1.5449549, secondHarmonicPercent 0.52904124
value.overlays.1: name lofgren-b
value.overlays.1.points.0: radiusMm 60.325, trackingErrorDeg 1.0089777, secondHarmonicPercent 0.83637135
value.overlays.1.points.1: radiusMm 100, trackingErrorDeg -0.53316439, secondHarmonicPercent -0.26658989
value.overlays.1.points.2: radiusMm 146.05, trackingErrorDeg 1.6621141, secondHarmonicPercent 0.56918196
value.overlays.2: name least-squares
value.overlays.2.points.0: radiusMm 60.325, trackingErrorDeg 0.99473325, secondHarmonicPercent 0.8245613
value.overlays.2.points.1: radiusMm 100, trackingErrorDeg -0.52492018, secondHarmonicPercent -0.26246743
value.overlays.2.points.2: radiusMm 146.05, trackingErrorDeg 1.6973857, secondHarmonicPercent 0.58126752
value.overlays.3: name stevenson
value.overlays.3.points.0: radiusMm 60.325, trackingErrorDeg 0, secondHarmonicPercent 0
value.overlays.3.points.1: radiusMm 100, trackingErrorDeg -0.87040304, secondHarmonicPercent -0.435235
value.overlays.3.points.2: radiusMm 146.05, trackingErrorDeg 2.1384611, secondHarmonicPercent 0.73243909
value.tolerance: overhangMm 0.2, twistDeg 1, spindleToPivotMm 0.2, draws 100, seed 1, mattersMost twist
value.tolerance.linear.0: radiusMm 60.325, trackingErrorLowDeg -0.22912018, trackingErrorHighDeg 1.8411776, secondHarmonicLowPercent -0.18990585, secondHarmonicHighPercent 1.526574
value.tolerance.linear.1: radiusMm 146.05, trackingErrorLowDeg 1.2167248, trackingErrorHighDeg 3.2275395, secondHarmonicLowPercent 0.41660656, secondHarmonicHighPercent 1.1061136
value.tolerance.monteCarlo.0: radiusMm 60.325, trackingErrorLowDeg -0.132668, trackingErrorHighDeg 1.6164823, secondHarmonicLowPercent -0.10996124, secondHarmonicHighPercent 1.3401669
value.tolerance.monteCarlo.1: radiusMm 146.05, trackingErrorLowDeg 1.2697848, trackingErrorHighDeg 3.0414563, secondHarmonicLowPercent 0.43478012, secondHarmonicHighPercent 1.0422172
value.tolerance.peakDistortionPercent: asSet 0.76112529, median 0.80340705, low 0.43478012, high 1.3401669
value.tolerance.effects.0: setting twist, tolerance 1, unit deg, peakAtWorstPercent 1.4974116, risePercent 0.73628629
value.tolerance.effects.1: setting spindle-to-pivot, tolerance 0.2, unit mm, peakAtWorstPercent 0.8270542, risePercent 0.065928909
value.tolerance.effects.2: setting overhang, tolerance 0.2, unit mm, peakAtWorstPercent 0.82280864, risePercent 0.061683346
value.moves []
value.withheld []
`,
  'a point read on a sheet': `
: schema 1, criterion lofgren-a, kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.29605, overhangMm 17.296053, offsetDeg 22.985524, linearOffsetMm 93.444761, peakDistortionPercent 0.6183535, peakAtMm 146.05, rmsDistortionPercent 0.40783164, largestErrorDeg 1.8056126, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method closed-form, limits null, pivotChoices null
nullPointsMm [65.998046 120.89148]
exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.31109, overhangMm 17.31109, offsetDeg 23.000474, linearOffsetMm 93.508113, peakDistortionPercent 0.61488728, peakAtMm 60.325, rmsDistortionPercent 0.40899947, largestErrorDeg 1.7954978, largestErrorAtMm 146.05
exact.figures.nullPointsMm [65.976868 121.03936]
exact.difference: effectiveLengthMm 0.015036368, overhangMm 0.015036368, offsetDeg 0.014949561, peakDistortionPercent -0.0034662158, rmsDistortionPercent 0.0011678276
exact.difference.nullPointsMm [-0.021178081 0.14788157]
withheld []
overlays [lofgren-b least-squares stevenson as-it-stands]
moves.0: action slide, amount 1.3128915, unit mm, direction forward, uncertainty 0.32255973, withinReading false
moves.0.reasons.0: code slide-forward-by
moves.0.reasons.0.values: amount 1.3128915, within 0.32255973
moves.0.reasons.1: code move-brings
moves.0.reasons.1.values: before 2.2345138, after 0.6183535, most 1.0047886
moves.1: action twist, amount 1.6125855, unit deg, direction anticlockwise-from-above, uncertainty 0.54169107, withinReading false
moves.1.reasons.0: code twist-anticlockwise-by
moves.1.reasons.0.values: amount 1.6125855, within 0.54169107
moves.1.reasons.1: code move-brings
moves.1.reasons.1.values: before 2.2345138, after 0.6183535, most 1.0047886
asItStands: disagreement null, disagrees null
asItStands.effectiveLengthMm: value 237.99464, uncertainty 0.40590537
asItStands.overhangMm: value 15.994638, uncertainty 0.28599365
asItStands.offsetDeg: value 24.670777, uncertainty 0.51710856
asItStands.figures: peakDistortionFromPercent 1.9335916, peakDistortionToPercent 2.5859094
asItStands.figures.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 237.99464, overhangMm 15.994638, offsetDeg 24.670777, linearOffsetMm 99.33983, peakDistortionPercent 2.2345138, peakAtMm 73.971993, rmsDistortionPercent 1.5620988, largestErrorDeg -3.5454201, largestErrorAtMm 85.775567
asItStands.figures.figures.nullPointsMm [49.230411 149.44925]
asItStands.figures.nullPointsUncertaintyMm [2.0314515 5.6201174]
asItStands.slideMm: value 1.3128915, uncertainty 0.32255973
asItStands.twistDeg: value -1.6125855, uncertainty 0.54169107
asItStands.after: peakDistortionFromPercent 0.62884123, peakDistortionToPercent 1.0047886
asItStands.after.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.29605, overhangMm 17.296053, offsetDeg 22.985524, linearOffsetMm 93.444761, peakDistortionPercent 0.6183535, peakAtMm 146.05, rmsDistortionPercent 0.40783164, largestErrorDeg 1.8056126, largestErrorAtMm 146.05
asItStands.after.figures.nullPointsMm [65.998046 120.89148]
asItStands.after.nullPointsUncertaintyMm [4.9758335 8.6219019]
asItStands.after.arm: kind pivoted, spindleToPivot 222, effectiveLength 239.29605, offset 0.40117307
asItStands.heldBy []
asItStands.held []
`,
  'two points that contradict one another, slots and shell that end': `
: schema 1, criterion lofgren-b, kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.74897, overhangMm 17.748965, offsetDeg 22.93962, linearOffsetMm 93.444761, peakDistortionPercent 1.0040579, peakAtMm 60.325, rmsDistortionPercent 0.36594971, largestErrorDeg 1.99714, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method closed-form, limits null, pivotChoices null
nullPointsMm [70.285377 116.60414]
exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.74674, overhangMm 17.74674, offsetDeg 22.939845, linearOffsetMm 93.444761, peakDistortionPercent 1.0021481, peakAtMm 60.325, rmsDistortionPercent 0.36594863, largestErrorDeg 1.9961993, largestErrorAtMm 146.05
exact.figures.nullPointsMm [70.26235 116.62717]
exact.difference: effectiveLengthMm -0.0022255071, overhangMm -0.0022255071, offsetDeg 0.00022510099, peakDistortionPercent -0.0019097859, rmsDistortionPercent -0.0000010798719
exact.difference.nullPointsMm [-0.023027185 0.023027185]
withheld []
overlays [lofgren-a least-squares stevenson as-it-stands]
moves.0: action slide, amount 0.5, unit mm, direction back, uncertainty 0.22844947, withinReading false
moves.0.reasons.0: code slide-back-by
moves.0.reasons.0.values: amount 0.5, within 0.22844947
moves.0.reasons.1: code move-brings
moves.0.reasons.1.values: before 4.4017968, after 3.151686, most 3.453282
moves.0.reasons.2: code best-that-remains
moves.0.reasons.2.values.held: code held-both
moves.0.reasons.2.values.held.values.first: code slots-end
moves.0.reasons.2.values.held.values.first.values: leftMm 0.5, way back
moves.0.reasons.2.values.held.values.second: code little-twist-in-headshell
moves.0.reasons.2.values.held.values.second.values: mostDeg 1
moves.1: action twist, amount 1, unit deg, direction clockwise-from-above, uncertainty 0.37788341, withinReading false
moves.1.reasons.0: code twist-clockwise-by
moves.1.reasons.0.values: amount 1, within 0.37788341
moves.1.reasons.1: code move-brings
moves.1.reasons.1.values: before 4.4017968, after 3.151686, most 3.453282
moves.1.reasons.2: code best-that-remains
moves.1.reasons.2.values.held: code held-both
moves.1.reasons.2.values.held.values.first: code slots-end
moves.1.reasons.2.values.held.values.first.values: leftMm 0.5, way back
moves.1.reasons.2.values.held.values.second: code little-twist-in-headshell
moves.1.reasons.2.values.held.values.second.values: mostDeg 1
asItStands: disagreement the readings disagree with one another by 8.7 times what their uncertainties allow: read them again
asItStands.effectiveLengthMm: value 241.28846, uncertainty 0.51014866
asItStands.overhangMm: value 19.420265, uncertainty 0.22463274
asItStands.offsetDeg: value 20.424644, uncertainty 0.36673654
asItStands.figures: peakDistortionFromPercent 4.0799279, peakDistortionToPercent 4.704036
asItStands.figures.figures: kind pivoted, spindleToPivotMm 221.8682, effectiveLengthMm 241.28846, overhangMm 19.420265, offsetDeg 20.424644, linearOffsetMm 84.203681, peakDistortionPercent 4.4017968, peakAtMm 60.325, rmsDistortionPercent 1.9464117, largestErrorDeg 5.2956366, largestErrorAtMm 60.325
asItStands.figures.figures.nullPointsMm []
asItStands.figures.nullPointsUncertaintyMm []
asItStands.slideMm: value -0.5, uncertainty 0.22844947
asItStands.twistDeg: value 1, uncertainty 0.37788341
asItStands.after: peakDistortionFromPercent 2.8306854, peakDistortionToPercent 3.453282
asItStands.after.figures: kind pivoted, spindleToPivotMm 221.8682, effectiveLengthMm 240.7462, overhangMm 18.877999, offsetDeg 21.41427, linearOffsetMm 87.898521, peakDistortionPercent 3.151686, peakAtMm 60.325, rmsDistortionPercent 1.2535845, largestErrorDeg 3.8958172, largestErrorAtMm 146.05
asItStands.after.figures.nullPointsMm []
asItStands.after.nullPointsUncertaintyMm []
asItStands.after.arm: kind pivoted, spindleToPivot 221.8682, effectiveLength 240.7462, offset 0.37374951
asItStands.heldBy [the slots end 0.5 mm further back the headshell lets the cartridge turn 1.0° and no more]
asItStands.held.0: code slots-end
asItStands.held.0.values: leftMm 0.5, way back
asItStands.held.1: code little-twist-in-headshell
asItStands.held.1.values: mostDeg 1
asItStands.disagrees: code readings-disagree
asItStands.disagrees.values: times 8.7485461
`,
  'a ruler alone': `
: schema 1, criterion least-squares, kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.65929, overhangMm 17.659286, offsetDeg 22.879589, linearOffsetMm 93.178516, peakDistortionPercent 0.98441176, peakAtMm 60.325, rmsDistortionPercent 0.3658632, largestErrorDeg 2.028337, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method closed-form, limits null, pivotChoices null
nullPointsMm [70.164119 116.19291]
exact.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.66407, overhangMm 17.664074, offsetDeg 22.884451, linearOffsetMm 93.199114, peakDistortionPercent 0.98408596, peakAtMm 60.325, rmsDistortionPercent 0.36586158, largestErrorDeg 2.0250144, largestErrorAtMm 146.05
exact.figures.nullPointsMm [70.151194 116.24703]
exact.difference: effectiveLengthMm 0.0047876753, overhangMm 0.0047876753, offsetDeg 0.0048619244, peakDistortionPercent -0.00032579476, rmsDistortionPercent -0.0000016149563
exact.difference.nullPointsMm [-0.01292571 0.054121965]
withheld.0: quantity twist, why nothing that was read tells how the cartridge is turned: read its twist against the grid
withheld.0.reason: code twist-not-read
overlays [lofgren-a lofgren-b stevenson]
moves.0: action slide, amount 2.0129287, unit mm, direction back, uncertainty 1.0952679, withinReading false
moves.0.reasons.0: code slide-back-by
moves.0.reasons.0.values: amount 2.0129287, within 1.0952679
moves.0.reasons.1: code twist-read-after
asItStands: offsetDeg null, figures null, twistDeg null, after null, disagreement null, disagrees null
asItStands.effectiveLengthMm: value 241.5, uncertainty 1.118034
asItStands.overhangMm: value 19.5, uncertainty 1
asItStands.slideMm: value -2.0129287, uncertainty 1.0952679
asItStands.heldBy []
asItStands.held []
`,
  'a fixed offset, and readings of the arm': `
: schema 1, criterion lofgren-a, kind pivoted, spindleToPivotMm 222, effectiveLengthMm 234.0694, overhangMm 12.069399, offsetDeg 20, linearOffsetMm 80.05645, peakDistortionPercent 1.0655524, peakAtMm 146.05, rmsDistortionPercent 0.71411514, largestErrorDeg 3.1094222, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method exact-within-limits, exact null, pivotChoices null
nullPointsMm [49.980689 110.13221]
limits: costsPeakPercent 0.45066508, costsRmsPercent 0.30511567
limits.heldBy [offset fixed at 20.00°]
limits.held.0: code held-fixed-deg
limits.held.0.values: what offset, value 20
limits.free: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.31109, overhangMm 17.31109, offsetDeg 23.000474, linearOffsetMm 93.508113, peakDistortionPercent 0.61488728, peakAtMm 60.325, rmsDistortionPercent 0.40899947, largestErrorDeg 1.7954978, largestErrorAtMm 146.05
limits.free.nullPointsMm [65.976868 121.03936]
withheld []
overlays [lofgren-a lofgren-b least-squares stevenson as-it-stands]
moves.0: action slide, amount 0.27093933, unit mm, direction forward, uncertainty 0.81812798, withinReading false
moves.0.reasons.0: code slide-forward-by
moves.0.reasons.0.values: amount 0.27093933, within 0.81812798
moves.0.reasons.1: code move-brings
moves.0.reasons.1.values: before 0.8052063, after 0.68851932, most 0.97778182
moves.0.reasons.2: code best-that-remains
moves.0.reasons.2.values.held: code no-twist-in-headshell
asItStands: disagreement null, disagrees null
asItStands.effectiveLengthMm: value 238, uncertainty 0.5
asItStands.overhangMm: value 16, uncertainty 0.70710678
asItStands.offsetDeg: value 22.469451, uncertainty 0.78538376
asItStands.figures: peakDistortionFromPercent 0.69722045, peakDistortionToPercent 1.0968196
asItStands.figures.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 238, overhangMm 16, offsetDeg 22.469451, linearOffsetMm 90.961406, peakDistortionPercent 0.8052063, peakAtMm 80.894849, rmsDistortionPercent 0.51959739, largestErrorDeg 1.9049089, largestErrorAtMm 146.05
asItStands.figures.figures.nullPointsMm [60.729348 121.19346]
asItStands.figures.nullPointsUncertaintyMm [3.7714453 8.9346184]
asItStands.slideMm: value 0.27093933, uncertainty 0.81812798
asItStands.twistDeg: value 0, uncertainty 0.8721223
asItStands.after: peakDistortionFromPercent 0.67976465, peakDistortionToPercent 0.97778182
asItStands.after.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 238.25039, overhangMm 16.250393, offsetDeg 22.444548, linearOffsetMm 90.961406, peakDistortionPercent 0.68851932, peakAtMm 146.05, rmsDistortionPercent 0.45591391, largestErrorDeg 2.0103395, largestErrorAtMm 146.05
asItStands.after.figures.nullPointsMm [62.770493 119.15232]
asItStands.after.nullPointsUncertaintyMm [4.2393894 9.4395185]
asItStands.after.arm: kind pivoted, spindleToPivot 222, effectiveLength 238.25039, offset 0.39173127
asItStands.heldBy [the headshell does not let the cartridge turn]
asItStands.held.0: code no-twist-in-headshell
`,
  'a fixed length and a range of offsets': `
: schema 1, criterion stevenson, kind pivoted, spindleToPivotMm 222, effectiveLengthMm 238, overhangMm 16, offsetDeg 21, linearOffsetMm 85.291572, peakDistortionPercent 1.2622989, peakAtMm 60.325, rmsDistortionPercent 0.59928564, largestErrorDeg 3.3743597, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method exact-within-limits, exact null, pivotChoices null
nullPointsMm []
limits: costsPeakPercent 0.51264213, costsRmsPercent 0.097720762
limits.heldBy [effective length fixed at 238.00 mm offset between 18.00 and 21.00°]
limits.held.0: code held-fixed-mm
limits.held.0.values: what effective length, value 238
limits.held.1: code held-between-deg
limits.held.1.values: what offset, least 18, most 21
limits.free: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 237.44401, overhangMm 15.444007, offsetDeg 22.006849, linearOffsetMm 88.974406, peakDistortionPercent 0.74965673, peakAtMm 79.733863, rmsDistortionPercent 0.50156488, largestErrorDeg 2.1886821, largestErrorAtMm 146.05
limits.free.nullPointsMm [60.325 117.62381]
withheld []
overlays [lofgren-a lofgren-b least-squares stevenson as-it-stands]
moves.0: action twist, amount 3.4639037, unit deg, direction clockwise-from-above, uncertainty 1.0454744, withinReading false
moves.0.reasons.0: code twist-clockwise-by
moves.0.reasons.0.values: amount 3.4639037, within 1.0454744
moves.0.reasons.1: code move-brings
moves.0.reasons.1.values: before 2.9233735, after 0.80557298, most 1.4471432
moves.0.reasons.2: code best-that-remains
moves.0.reasons.2.values.held: code slots-end-here
moves.0.reasons.2.values.held.values: way forward
asItStands: disagreement null, disagrees null
asItStands.effectiveLengthMm: value 238, uncertainty 0.70710678
asItStands.overhangMm: value 16, uncertainty 0.5
asItStands.offsetDeg: value 19, uncertainty 1
asItStands.figures: peakDistortionFromPercent 2.063156, peakDistortionToPercent 3.6525579
asItStands.figures.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 238, overhangMm 16, offsetDeg 19, linearOffsetMm 77.485221, peakDistortionPercent 2.9233735, peakAtMm 60.325, rmsDistortionPercent 1.5666792, largestErrorDeg 5.3743597, largestErrorAtMm 146.05
asItStands.figures.figures.nullPointsMm []
asItStands.figures.nullPointsUncertaintyMm []
asItStands.slideMm: value 0, uncertainty 0.5358788
asItStands.twistDeg: value 3.4639037, uncertainty 1.0454744
asItStands.after: nullPointsUncertaintyMm null, peakDistortionFromPercent 0.722641, peakDistortionToPercent 1.4471432
asItStands.after.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 237.79732, overhangMm 15.797324, offsetDeg 22.334501, linearOffsetMm 90.366125, peakDistortionPercent 0.80557298, peakAtMm 80.361078, rmsDistortionPercent 0.52281501, largestErrorDeg 1.9746731, largestErrorAtMm 146.05
asItStands.after.figures.nullPointsMm [60.325 120.40725]
asItStands.after.arm: kind pivoted, spindleToPivot 222, effectiveLength 237.79732, offset 0.38981058
asItStands.heldBy [the slots end here, nothing is left forward]
asItStands.held.0: code slots-end-here
asItStands.held.0.values: way forward
`,
  'slots that end, a pivot that may be moved': `
: schema 1, criterion lofgren-b, kind pivoted, spindleToPivotMm 223, effectiveLengthMm 239, overhangMm 16, offsetDeg 21.793818, linearOffsetMm 88.732969, peakDistortionPercent 0.85668312, peakAtMm 146.05, rmsDistortionPercent 0.39331348, largestErrorDeg 2.5007821, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method exact-within-limits, exact null, pivotChoices null, asItStands null
nullPointsMm [66.788955 110.67698]
limits: costsPeakPercent -0.14556313, costsRmsPercent 0.026013405
limits.heldBy [spindle to pivot between 223.00 and 225.00 mm]
limits.held.0: code held-between-mm
limits.held.0.values: what spindle to pivot, least 223, most 225
limits.free: kind pivoted, spindleToPivotMm 221.1979, effectiveLengthMm 239, overhangMm 17.8021, offsetDeg 23.015633, linearOffsetMm 93.444761, peakDistortionPercent 1.0022462, peakAtMm 60.325, rmsDistortionPercent 0.36730007, largestErrorDeg 2.0018529, largestErrorAtMm 146.05
limits.free.nullPointsMm [70.219033 116.67049]
withheld []
overlays [lofgren-a lofgren-b least-squares stevenson]
moves []
`,
  'a pivot that is elsewhere': `
: schema 1, criterion lofgren-a, kind pivoted, spindleToPivotMm 223.5, effectiveLengthMm 240.68829, overhangMm 17.188286, offsetDeg 22.845016, linearOffsetMm 93.444761, peakDistortionPercent 0.61407899, peakAtMm 146.05, rmsDistortionPercent 0.40505847, largestErrorDeg 1.7931391, largestErrorAtMm 146.05, rpm 33.333333, at10CmS true, method closed-form, limits null, asItStands null
nullPointsMm [65.998046 120.89148]
exact.figures: kind pivoted, spindleToPivotMm 223.5, effectiveLengthMm 240.70303, overhangMm 17.203032, offsetDeg 22.859679, linearOffsetMm 93.50725, peakDistortionPercent 0.61068357, peakAtMm 60.325, rmsDistortionPercent 0.40620249, largestErrorDeg 1.7832307, largestErrorAtMm 146.05
exact.figures.nullPointsMm [65.977156 121.03734]
exact.difference: effectiveLengthMm 0.014745716, overhangMm 0.014745716, offsetDeg 0.014662622, peakDistortionPercent -0.0033954229, rmsDistortionPercent 0.0011440255
exact.difference.nullPointsMm [-0.020890096 0.14586707]
pivotChoices.0: choice leave, does effective length and offset stay as the maker states them
pivotChoices.0.arm: kind pivoted, spindleToPivot 223.5, effectiveLength 239.2962, offset 0.401173
pivotChoices.0.figures: kind pivoted, spindleToPivotMm 223.5, effectiveLengthMm 239.2962, overhangMm 15.7962, offsetDeg 22.98552, linearOffsetMm 93.444802, peakDistortionPercent 1.2559454, peakAtMm 78.194098, rmsDistortionPercent 0.81935629, largestErrorDeg -2.0509273, largestErrorAtMm 85.501002
pivotChoices.0.figures.nullPointsMm [55.741888 131.14772]
pivotChoices.1: choice slide, does slide only: the offset stays as the maker states it
pivotChoices.1.arm: kind pivoted, spindleToPivot 223.5, effectiveLength 240.85917, offset 0.401173
pivotChoices.1.figures: kind pivoted, spindleToPivotMm 223.5, effectiveLengthMm 240.85917, overhangMm 17.359171, offsetDeg 22.98552, linearOffsetMm 94.05514, peakDistortionPercent 0.627091, peakAtMm 60.325, rmsDistortionPercent 0.41202988, largestErrorDeg 1.7077304, largestErrorAtMm 146.05
pivotChoices.1.figures.nullPointsMm [66.028739 122.08154]
pivotChoices.2: choice twist, does twist only: the effective length stays as the maker states it
pivotChoices.2.arm: kind pivoted, spindleToPivot 223.5, effectiveLength 239.2962, offset 0.38600616
pivotChoices.2.figures: kind pivoted, spindleToPivotMm 223.5, effectiveLengthMm 239.2962, overhangMm 15.7962, offsetDeg 22.116524, linearOffsetMm 90.092974, peakDistortionPercent 0.70990879, peakAtMm 81.128321, rmsDistortionPercent 0.471979, largestErrorDeg 2.0727389, largestErrorAtMm 146.05
pivotChoices.2.figures.nullPointsMm [61.697154 118.48879]
pivotChoices.3: choice slide-and-twist, does slide and twist: solved anew for the pivot as it is
pivotChoices.3.arm: kind pivoted, spindleToPivot 223.5, effectiveLength 240.68829, offset 0.39872075
pivotChoices.3.figures: kind pivoted, spindleToPivotMm 223.5, effectiveLengthMm 240.68829, overhangMm 17.188286, offsetDeg 22.845016, linearOffsetMm 93.444761, peakDistortionPercent 0.61407899, peakAtMm 146.05, rmsDistortionPercent 0.40505847, largestErrorDeg 1.7931391, largestErrorAtMm 146.05
pivotChoices.3.figures.nullPointsMm [65.998046 120.89148]
pivotChoices.4: choice move-the-pivot, does move the pivot back to where the maker wants it
pivotChoices.4.arm: kind pivoted, spindleToPivot 222, effectiveLength 239.2962, offset 0.401173
pivotChoices.4.figures: kind pivoted, spindleToPivotMm 222, effectiveLengthMm 239.2962, overhangMm 17.2962, offsetDeg 22.98552, linearOffsetMm 93.444802, peakDistortionPercent 0.61837108, peakAtMm 146.05, rmsDistortionPercent 0.40780828, largestErrorDeg 1.8056639, largestErrorAtMm 146.05
pivotChoices.4.figures.nullPointsMm [65.999225 120.89038]
withheld []
overlays [lofgren-b least-squares stevenson]
moves []
`,
  'a tangential arm whose line misses the spindle': `
: schema 1, criterion lofgren-a, kind tangential, spindleToPivotMm null, effectiveLengthMm null, overhangMm 1, offsetDeg 0.5, linearOffsetMm null, peakDistortionPercent 0.37915286, peakAtMm 60, rmsDistortionPercent 0.13136527, largestErrorDeg 0.45497387, largestErrorAtMm 60, rpm 33.333333, at10CmS true, method exact-within-limits, exact null, pivotChoices null, asItStands null
nullPointsMm [114.59301]
limits: costsPeakPercent 0.37915286, costsRmsPercent 0.13136527
limits.heldBy [overhang between 1.00 and 2.00 mm twist between 0.00 and 0.50°]
limits.held.0: code held-between-mm
limits.held.0.values: what overhang, least 1, most 2
limits.held.1: code held-between-deg
limits.held.1.values: what twist, least 0, most 0.5
limits.free: kind tangential, spindleToPivotMm null, effectiveLengthMm null, overhangMm 0, offsetDeg 0, linearOffsetMm null, peakDistortionPercent 0, peakAtMm 60, rmsDistortionPercent 0, largestErrorDeg 0, largestErrorAtMm 60
limits.free.nullPointsMm []
withheld []
overlays []
moves []
`,
};
