/** Two-point templates: of an arm of 222 mm on A4, and of one null on Letter; written as told.fixture.ts tells it. */
export const twoPointSheet = `
Platterside two-point template, 210 297
arc 40 176 3.62 0 6.283
arc 40 176 0.6 0 6.283
line 34 176 46 176
line 40 170 40 182
text 40 185 middle: spindle: prick the cross,
text 40 188.438 middle: cut out to the circle, 7.24 mm
line 47.922 177.113 93.473 183.515 fine
text 71.359 179.195 middle turned 0.14: radius to the first point
line 109.113 158.448 101.598 211.922
line 94.463 183.654 116.249 186.716
line 99.505 162.147 93.799 202.748 fine
line 102.476 162.564 96.77 203.165 fine
line 105.447 162.982 99.741 203.583 fine
line 111.388 163.817 105.682 204.418 fine
line 114.359 164.234 108.653 204.835 fine
line 117.33 164.652 111.624 205.253 fine
line 104.901 184.111 106.089 184.278
line 104.449 184.452 104.282 185.64
line 104.622 186.092 105.811 186.259
line 106.43 184.73 106.263 185.918
line 105.04 183.121 106.228 183.288
line 103.459 184.313 103.292 185.501
line 104.483 187.082 105.672 187.249
line 107.42 184.869 107.253 186.058
line 105.179 182.131 106.367 182.298
line 102.468 184.173 102.301 185.362
line 104.344 188.072 105.532 188.239
line 108.41 185.009 108.243 186.197
line 105.318 181.141 106.507 181.308
line 101.478 184.034 101.311 185.223
line 104.205 189.063 105.393 189.23
line 109.4 185.148 109.233 186.336
line 104.863 180.067 107.24 180.401
line 100.571 183.301 100.237 185.678
line 103.472 189.969 105.848 190.304
line 110.474 184.693 110.14 187.069
arc 105.356 185.185 23 1.623 1.798
line 104.152 208.154 104.037 210.351
line 103.751 208.129 103.668 209.326
line 103.351 208.098 103.247 209.293
line 102.952 208.059 102.826 209.253
line 102.553 208.014 102.407 209.205
line 102.155 207.961 101.849 210.14
line 101.758 207.902 101.57 209.087
line 101.362 207.836 101.153 209.018
line 100.967 207.763 100.738 208.941
line 100.574 207.683 100.324 208.856
line 100.182 207.596 99.687 209.739
text 101.236 214.497 middle turned 0.14: front of the headshell
text 98.284 209.639 end turned 0.14: +5°
text 105.414 210.641 turned 0.14: –5°
text 97.95 212.016 end turned 0.14: clockwise
text 105.08 213.018 turned 0.14: anticlockwise
text 109.884 161.586 turned 0.14: rim side
text 107.508 161.252 end turned 0.14: spindle side
text 100.781 138.696 turned 0.14: Inner null point: 66.00 mm from the spindle
text 100.266 142.36 turned 0.14: Tip on the cross, cantilever along the
text 99.807 145.628 turned 0.14: middle line, cartridge sides parallel to the
text 99.348 148.896 turned 0.14: long lines. Ticks on the cross 1 mm:
text 98.889 152.164 turned 0.14: miss along and across. Tick scale in
text 98.429 155.432 turned 0.14: front 1°: turn of the cartridge.
line 45.657 170.343 116.998 99.002 fine
text 80.832 133.471 middle turned -0.785: radius to the second point
line 106.391 71.425 144.575 109.609
line 117.705 98.295 133.261 82.739
line 103.563 81.324 132.554 110.316 fine
line 105.684 79.203 134.676 108.194 fine
line 107.806 77.082 136.797 106.073 fine
line 112.048 72.839 141.04 101.831 fine
line 114.169 70.718 143.161 99.709 fine
line 116.291 68.597 145.282 97.588 fine
line 124.352 90.234 125.2 89.385
line 124.352 90.8 125.2 91.648
line 125.766 91.648 126.615 90.8
line 125.766 89.385 126.615 90.234
line 123.645 89.527 124.493 88.678
line 123.645 91.507 124.493 92.355
line 126.473 92.355 127.322 91.507
line 126.473 88.678 127.322 89.527
line 122.938 88.82 123.786 87.971
line 122.938 92.214 123.786 93.062
line 127.18 93.062 128.029 92.214
line 127.18 87.971 128.029 88.82
line 122.23 88.113 123.079 87.264
line 122.23 92.921 123.079 93.77
line 127.887 93.77 128.736 92.921
line 127.887 87.264 128.736 88.113
line 121.099 87.83 122.796 86.133
line 121.099 93.204 122.796 94.901
line 128.17 94.901 129.867 93.204
line 128.17 86.133 129.867 87.83
arc 125.483 90.517 23 0.698 0.873
line 143.102 105.301 144.788 106.715
line 142.842 105.606 143.747 106.393
line 142.576 105.907 143.467 106.71
line 142.304 106.203 143.182 107.021
line 142.028 106.494 142.891 107.328
line 141.747 106.78 143.302 108.336
line 141.46 107.062 142.294 107.925
line 141.169 107.338 141.988 108.216
line 140.873 107.609 141.676 108.501
line 140.573 107.875 141.36 108.781
line 140.267 108.136 141.681 109.821
text 146.414 111.447 middle turned -0.785: front of the headshell
text 140.757 110.881 end turned -0.785: +5°
text 145.848 105.79 turned -0.785: –5°
text 142.454 112.579 end turned -0.785: clockwise
text 147.545 107.487 turned -0.785: anticlockwise
text 109.361 72.698 turned -0.785: rim side
text 107.664 74.395 end turned -0.785: spindle side
text 85.602 66.192 turned -0.785: Outer null point: 120.89 mm from the spindle
text 88.219 68.809 turned -0.785: Tip on the cross, cantilever along the
text 90.552 71.142 turned -0.785: middle line, cartridge sides parallel to the
text 92.886 73.476 turned -0.785: long lines. Ticks on the cross 1 mm:
text 95.219 75.809 turned -0.785: miss along and across. Tick scale in
text 97.552 78.142 turned -0.785: front 1°: turn of the cartridge.
text 12 16 size 5: Platterside two-point template
text 12 22: Drawn for: Löfgren A: equal peaks. Grooves from 60.325 to
text 12 25.438: 146.05 mm radius (12in).
text 12 30.25: Spindle to pivot 222.00 mm, effective length 239.30 mm,
text 12 33.688: overhang 17.30 mm, offset 22.99°. Null points at 66.00 and
text 12 37.125: 120.89 mm. Second harmonic at most 0.62 % for 10 cm/s
text 12 40.563: peak lateral at 33⅓ rpm.
line 196 14 196 114
line 193 14 199 14
line 196 24 197 24
line 196 34 197 34
line 196 44 197 44
line 196 54 197 54
line 196 64 198 64
line 196 74 197 74
line 196 84 197 84
line 196 94 197 94
line 196 104 197 104
line 193 114 199 114
text 194.4 64 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use
text 12 232: How to use: 1. Print at 100 %, not fitted to the page; check both bars. 2. Put the template on the spindle, without a record. 3. Swing the arm until the tip is
text 12 235.438: over the inner point, turning the template to meet it; read the twist. 4. The same at the outer point. 5. Slide and twist the cartridge until it is square at both:
text 12 238.875: sliding forward acts more at the inner point, twisting acts the same at both.
text 12 243.688: Give the readings as radius and twist (clockwise seen from above positive) and the move is worked out for you.
text 12 248.5: Before use: power off and amplifier muted, platter still (hold it), stylus guard on until the tip is over the template; lower the tip by the lift. Never twist the
text 12 251.938: arm against its bearings: loosen the screws and move the cartridge.
text 12 256.75: No printer correction: measure both bars; if they are not 100.0 mm, print again with what they measure.
line 20 281 120 281
line 20 278 20 284
line 30 280 30 281
line 40 280 40 281
line 50 280 50 281
line 60 280 60 281
line 70 279 70 281
line 80 280 80 281
line 90 280 90 281
line 100 280 100 281
line 110 280 110 281
line 120 278 120 284
text 70 284.2 middle: 100 mm across, between the long ticks: lay a steel ruler here before use
`;

export const oneNullSheet = `
Platterside two-point template, 215.9 279.4
arc 40 176 3.62 0 6.283
arc 40 176 0.6 0 6.283
line 34 176 46 176
line 40 170 40 182
text 40 185 middle: spindle: prick the cross,
text 40 188.438 middle: cut out to the circle, 7.24 mm
line 47.922 177.113 87.85 182.725 fine
text 68.548 178.8 middle turned 0.14: radius to the first point
line 103.491 157.658 95.975 211.132
line 88.84 182.864 110.626 185.926
line 93.882 161.356 88.176 201.957 fine
line 96.853 161.774 91.147 202.375 fine
line 99.824 162.192 94.118 202.792 fine
line 105.766 163.027 100.059 203.628 fine
line 108.736 163.444 103.03 204.045 fine
line 111.707 163.862 106.001 204.463 fine
line 99.278 183.321 100.466 183.488
line 98.826 183.662 98.659 184.85
line 99 185.302 100.188 185.469
line 100.807 183.94 100.64 185.128
line 99.417 182.331 100.605 182.498
line 97.836 183.522 97.669 184.711
line 98.86 186.292 100.049 186.459
line 101.797 184.079 101.63 185.267
line 99.556 181.341 100.745 181.508
line 96.846 183.383 96.679 184.572
line 98.721 187.282 99.91 187.449
line 102.787 184.218 102.62 185.407
line 99.696 180.35 100.884 180.517
line 95.855 183.244 95.688 184.432
line 98.582 188.272 99.77 188.439
line 103.778 184.357 103.611 185.546
line 99.241 179.277 101.617 179.611
line 94.949 182.511 94.615 184.887
line 97.849 189.179 100.225 189.513
line 104.851 183.902 104.517 186.279
arc 99.733 184.395 23 1.623 1.798
line 98.529 207.363 98.414 209.56
line 98.129 207.339 98.045 208.536
line 97.728 207.307 97.624 208.503
line 97.329 207.269 97.203 208.462
line 96.93 207.223 96.784 208.415
line 96.532 207.171 96.226 209.35
line 96.135 207.112 95.947 208.297
line 95.739 207.045 95.531 208.227
line 95.344 206.972 95.115 208.15
line 94.951 206.892 94.702 208.066
line 94.559 206.805 94.064 208.949
text 95.613 213.707 middle turned 0.14: front of the headshell
text 92.661 208.849 end turned 0.14: +5°
text 99.791 209.851 turned 0.14: –5°
text 92.327 211.225 end turned 0.14: clockwise
text 99.457 212.227 turned 0.14: anticlockwise
text 104.261 160.795 turned 0.14: rim side
text 101.885 160.461 end turned 0.14: spindle side
text 95.158 137.906 turned 0.14: Null point: 60.32 mm from the spindle
text 94.644 141.57 turned 0.14: Tip on the cross, cantilever along the
text 94.184 144.838 turned 0.14: middle line, cartridge sides parallel to the
text 93.725 148.106 turned 0.14: long lines. Ticks on the cross 1 mm:
text 93.266 151.373 turned 0.14: miss along and across. Tick scale in
text 92.806 154.641 turned 0.14: front 1°: turn of the cartridge.
text 12 16 size 5: Platterside two-point template
text 12 22: Drawn for: Löfgren A: equal peaks. Grooves from 60.325 to
text 12 25.438: 146.05 mm radius (12in).
text 12 30.25: Overhang 17.30 mm, offset 22.99°. Null points at 60.32 and
text 12 33.688: 146.10 mm. Second harmonic at most 0.62 % for 10 cm/s
text 12 37.125: peak lateral at 33⅓ rpm.
line 201.9 14 201.9 114
line 198.9 14 204.9 14
line 201.9 24 202.9 24
line 201.9 34 202.9 34
line 201.9 44 202.9 44
line 201.9 54 202.9 54
line 201.9 64 203.9 64
line 201.9 74 202.9 74
line 201.9 84 202.9 84
line 201.9 94 202.9 94
line 201.9 104 202.9 104
line 198.9 114 204.9 114
text 200.3 64 middle turned -1.571: 100 mm down, between the long ticks: lay a steel ruler here before use
text 12 232: How to use: 1. Print at 100 %, not fitted to the page; check both bars. 2. Put the template on the spindle, without a record. 3. Swing the arm until the tip is over
text 12 235.438: the inner point, turning the template to meet it; read the twist. 4. The same at the outer point. 5. Slide and twist the cartridge until it is square at both: sliding
text 12 238.875: forward acts more at the inner point, twisting acts the same at both.
text 12 243.688: Give the readings as radius and twist (clockwise seen from above positive) and the move is worked out for you.
text 12 248.5: Before use: power off and amplifier muted, platter still (hold it), stylus guard on until the tip is over the template; lower the tip by the lift. Never twist the arm
text 12 251.938: against its bearings: loosen the screws and move the cartridge.
text 12 256.75: No printer correction: measure both bars; if they are not 100.0 mm, print again with what they measure.
line 20 263.4 120 263.4
line 20 260.4 20 266.4
line 30 262.4 30 263.4
line 40 262.4 40 263.4
line 50 262.4 50 263.4
line 60 262.4 60 263.4
line 70 261.4 70 263.4
line 80 262.4 80 263.4
line 90 262.4 90 263.4
line 100 262.4 100 263.4
line 110 262.4 110 263.4
line 120 260.4 120 266.4
text 70 266.6 middle: 100 mm across, between the long ticks: lay a steel ruler here before use
`;
