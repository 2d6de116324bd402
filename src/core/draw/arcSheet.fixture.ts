/** The arc template of an arm of 222 mm on A4; written as told.fixture.ts tells it. */
export const arcSheet = `
Platterside arc template, 210 297
arc 34 237 3.62 0 6.283
arc 34 237 0.6 0 6.283
line 28 237 40 237
line 34 231 34 243
text 34 246 middle: spindle: prick the cross,
text 34 249.438 middle: cut out to the circle, 7.24 mm
arc 34 15 239.296 0.917 1.333
line 103.656 243.934 104.121 245.465
line 113.921 240.555 114.455 242.064
line 124 236.727 124.601 238.209
line 133.896 232.447 134.564 233.901
line 143.608 227.718 144.341 229.14
line 153.125 222.537 153.922 223.925
line 162.438 216.907 163.297 218.257
line 171.531 210.826 172.451 212.135
line 94.014 243.813 93.042 249.734
line 176.303 203.992 177.538 209.864
line 102.83 218.367 96.154 271.952
line 88.576 243.8 110.407 246.52
line 93.281 222.216 88.212 262.901 fine
line 96.258 222.587 91.189 263.272 fine
line 99.235 222.957 94.166 263.643 fine
line 105.189 223.699 100.12 264.385 fine
line 108.166 224.07 103.097 264.756 fine
line 111.143 224.441 106.074 265.127 fine
line 99.02 244.093 100.211 244.241
line 98.574 244.441 98.425 245.631
line 98.773 246.078 99.963 246.226
line 100.558 244.688 100.41 245.879
line 99.144 243.101 100.334 243.249
line 97.581 244.317 97.433 245.508
line 98.649 247.07 99.84 247.218
line 101.551 244.811 101.402 246.002
line 99.267 242.108 100.458 242.257
line 96.589 244.193 96.441 245.384
line 98.525 248.062 99.716 248.211
line 102.543 244.935 102.395 246.126
line 99.391 241.116 100.582 241.264
line 95.597 244.07 95.448 245.26
line 98.402 249.055 99.593 249.203
line 103.535 245.059 103.387 246.25
line 98.919 240.05 101.301 240.346
line 94.678 243.351 94.382 245.732
line 97.683 249.973 100.064 250.27
line 104.602 244.587 104.305 246.969
arc 99.492 245.16 23 1.607 1.782
line 98.648 268.144 98.567 270.343
line 98.247 268.126 98.182 269.324
line 97.847 268.101 97.761 269.298
line 97.446 268.068 97.34 269.264
line 97.047 268.029 96.919 269.222
line 96.648 267.983 96.376 270.166
line 96.25 267.93 96.081 269.118
line 95.853 267.87 95.663 269.055
line 95.458 267.803 95.247 268.984
line 95.063 267.729 94.832 268.907
line 94.67 267.648 94.209 269.8
text 95.832 274.532 middle turned 0.124: front of the headshell
text 92.804 269.721 end turned 0.124: +5°
text 99.949 270.611 turned 0.124: –5°
text 92.507 272.103 end turned 0.124: clockwise
text 99.652 272.993 turned 0.124: anticlockwise
text 103.65 221.492 turned 0.124: rim side
text 101.268 221.195 end turned 0.124: spindle side
text 116.02 201.468 end turned 0.124: Inner null point: 66.00 mm from the spindle
text 115.563 205.139 end turned 0.124: Tip on the cross, cantilever along the
text 115.155 208.414 end turned 0.124: middle line, cartridge sides parallel to the
text 114.747 211.689 end turned 0.124: long lines. Ticks on the cross 1 mm:
text 114.339 214.964 end turned 0.124: miss along and across. Tick scale in
text 113.931 218.238 end turned 0.124: front 1°: turn of the cartridge.
line 150.626 195.261 157.302 248.847
line 143.048 223.414 164.88 220.694
line 142.313 201.335 147.382 242.021 fine
line 145.29 200.964 150.359 241.65 fine
line 148.267 200.593 153.336 241.279 fine
line 154.221 199.852 159.29 240.537 fine
line 157.198 199.481 162.267 240.166 fine
line 160.175 199.11 165.244 239.795 fine
line 153.245 221.136 154.436 220.987
line 152.897 221.582 153.046 222.773
line 153.492 223.12 154.683 222.972
line 154.882 221.335 155.03 222.525
line 153.121 220.143 154.312 219.995
line 151.905 221.706 152.054 222.896
line 153.616 224.113 154.807 223.964
line 155.874 221.211 156.023 222.402
line 152.998 219.151 154.188 219.003
line 150.913 221.829 151.061 223.02
line 153.739 225.105 154.93 224.957
line 156.867 221.087 157.015 222.278
line 152.874 218.159 154.065 218.01
line 149.92 221.953 150.069 223.144
line 153.863 226.097 155.054 225.949
line 157.859 220.964 158.007 222.155
line 152.155 217.24 154.537 216.944
line 148.854 221.481 149.151 223.863
line 153.391 227.164 155.773 226.867
line 158.777 220.245 159.074 222.626
arc 153.964 222.054 23 1.36 1.534
line 158.786 244.543 159.247 246.694
line 158.393 244.623 158.624 245.801
line 157.998 244.697 158.209 245.879
line 157.602 244.764 157.792 245.949
line 157.205 244.824 157.375 246.012
line 156.808 244.877 157.08 247.06
line 156.409 244.923 156.536 246.117
line 156.009 244.963 156.116 246.158
line 155.609 244.995 155.695 246.192
line 155.209 245.02 155.273 246.218
line 154.808 245.038 154.888 247.237
text 157.624 251.427 middle turned -0.124: front of the headshell
text 153.507 247.505 end turned -0.124: +5°
text 160.652 246.615 turned -0.124: –5°
text 153.804 249.887 end turned -0.124: clockwise
text 160.949 248.997 turned -0.124: anticlockwise
text 152.188 198.089 turned -0.124: rim side
text 149.806 198.386 end turned -0.124: spindle side
text 137.435 178.362 turned -0.124: Outer null point: 120.89 mm from the spindle
text 137.893 182.034 turned -0.124: Tip on the cross, cantilever along the
text 138.301 185.308 turned -0.124: middle line, cartridge sides parallel to the
text 138.709 188.583 turned -0.124: long lines. Ticks on the cross 1 mm:
text 139.117 191.858 turned -0.124: miss along and across. Tick scale in
text 139.525 195.132 turned -0.124: front 1°: turn of the cartridge.
text 42 36 size 5: Platterside arc template
text 42 42: Drawn for: Löfgren A: equal peaks. Grooves from 60.325 to 146.05 mm radius (12in).
text 42 46.813: Spindle to pivot 222.00 mm, effective length 239.30 mm, overhang 17.30 mm, offset 22.99°. Null points at 66.00 and
text 42 50.25: 120.89 mm. Second harmonic at most 0.62 % for 10 cm/s peak lateral at 33⅓ rpm.
text 42 55.063: How to use: 1. Print at 100 %, not fitted to the page; check both bars. 2. Put the template on the spindle and turn it
text 42 58.5: until the sight line points at the centre of the pivot; tape it down. 3. The tip must follow the long arc from the innermost
text 42 61.938: to the outermost groove: slide the cartridge forward if the tip stays inside the arc (on the pivot’s side), back if it swings
text 42 65.375: beyond it. 4. At each null point the cartridge must be parallel to the long lines: twist it.
text 42 70.188: Or read how far the tip misses a cross, along (towards the headshell’s front positive) and across (towards the rim
text 42 73.625: positive), and the twist (clockwise seen from above positive), and the move is worked out for you.
text 42 78.438: Before use: power off and amplifier muted, platter still (hold it), stylus guard on until the tip is over the template; lower
text 42 81.875: the tip by the lift. Never twist the arm against its bearings: loosen the screws and move the cartridge.
text 42 86.688: No printer correction: measure both bars; if they are not 100.0 mm, print again with what they measure.
line 196 36 196 136
line 193 36 199 36
line 196 46 197 46
line 196 56 197 56
line 196 66 197 66
line 196 76 197 76
line 196 86 198 86
line 196 96 197 96
line 196 106 197 106
line 196 116 197 116
line 196 126 197 126
line 193 136 199 136
text 194.4 86 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use
line 50 285 150 285
line 50 282 50 288
line 60 284 60 285
line 70 284 70 285
line 80 284 80 285
line 90 284 90 285
line 100 283 100 285
line 110 284 110 285
line 120 284 120 285
line 130 284 130 285
line 140 284 140 285
line 150 282 150 288
text 100 288.2 middle: 100 mm across, between the long ticks: lay a steel ruler here before use
text 90.528 241.274 end: innermost groove 60.325 mm
text 178.921 199.428 middle: outermost groove
text 178.921 202.865 middle: 146.05 mm
text 125.381 234.645 middle turned -0.394: t
text 126.015 234.38 middle turned -0.397: i
text 127.001 233.964 middle turned -0.402: p
text 128.055 233.513 middle turned -0.406:  
text 128.757 233.21 middle turned -0.41: f
text 129.808 232.751 middle turned -0.414: o
text 130.786 232.318 middle turned -0.419: l
text 131.343 232.069 middle turned -0.422: l
text 132.318 231.629 middle turned -0.426: o
text 133.916 230.897 middle turned -0.433: w
text 135.438 230.186 middle turned -0.441: s
text 136.405 229.727 middle turned -0.445:  
text 137.094 229.397 middle turned -0.448: t
text 138.127 228.898 middle turned -0.453: h
text 139.087 228.427 middle turned -0.458: i
text 139.977 227.987 middle turned -0.462: s
text 140.934 227.508 middle turned -0.466:  
text 141.957 226.99 middle turned -0.471: a
text 143.045 226.433 middle turned -0.476: r
text 144.061 225.905 middle turned -0.481: c
text 115.39 245.103 middle: 80 mm
text 125.654 241.204 middle: 90 mm
text 135.733 236.846 middle: 100 mm
text 174.06 214.826 middle: 140 mm
line 34 229 34 23
text 32.6 126 middle turned -1.571: sight line: must point at the centre of the pivot, 222.00 mm from the spindle
line 28 15 40 15
line 34 9 34 21
arc 34 15 2 0 6.283
text 43 15.8: centre of the pivot: cut the paper away round the arm’s base
`;
