/** A passage file as a skipper might keep it: aligned comments, some keys struck out, several kinds of source. */
export const EXAMPLE = `athwart: passage/1
name: Pelu Road to Port Ansa
invented: true                        # shown everywhere as "invented, for demonstration"
zones:
  ship: UTC-10                        # times without a zone mean this; IANA names (Pacific/Tahiti) or UTC+h[:mm]
  arrival: UTC-10

boat:
  name: Tansy
  lengthOverall: 11.6 m
  waterlineLength: 32 ft
  draught: 1.7 m
  airDraught: 16.5 m
  goes: power                         # power | sail | motor-sail
  power:
    speed: 5.6 kn                     # through the water at the cruising setting
    burn: 2.6 L/h                     # measured at that speed…
    burnMeasuredAt: 5.6 kn            # …or at another, by the cube law
    usableFuel: 180 L
    headwindLoss: 4 %                 # speed lost into 20 kn dead ahead (optional)
  # sail:
  #   table: tansy-speeds.txt         # plain table: wind speeds across, true wind angles down, knots
  #   rows:                           # or one row a point
  #     - {trueWindAngle: 52 deg, trueWindSpeed: 10 kn, speed: 5.3 kn}
  #   leeway: {coefficient: 464, cap: 12 deg}   # optional
  # engineRule: {onBelow: 3.5 kn, offAbove: 4.5 kn}
  # motorSail: {exponent: 2, headsailOnlyBeyond: 35 deg, hullSpeed: 7.6 kn}
  compass:
    # variation: 12 E                 # only where the magnetic model does not serve, or to overrule it
    deviation:                        # by magnetic heading
      - {heading: 0, deviation: 1 E}
      - {heading: 90, deviation: 1 W}
      - {heading: 180, deviation: 2 W}
      - {heading: 270, deviation: 0}

route:
  from: {name: the fairway buoy off Pelu Road, position: 17 32.4S 149 50.2W}
  to: {name: the fairway buoy off Port Ansa, position: 17 57.0S 149 02.1W}
  pilotageOut:                        # optional; fixed track at a speed over the ground
    speed: 5 kn
    points: [17 31.0S 149 51.0W]      # berth first; the leg ends at from
  pilotageIn:
    speed: 4.5 kn
    points: [17 58.1S 149 00.0W]      # starts at to; berth last

water:
  whereUnknown: refuse                # refuse | still | nearest within 5 nm
  sources:                            # the first that covers a place and time answers
    - file: current.nc
    - sketch:                         # a stream as a bulletin gives it
        name: Morrel Stream
        at: 17 45S 149 30W            # a point on the axis
        axis: 215                     # bearing along which the axis runs
        from: 2027-04-06 0000         # optional validity
        until: 2027-04-12 0000
        section:                      # miles across from the axis, + to the right looking along the axis' bearing
          - {across: -15 nm, rate: 0.3 kn}
          - {across: 0 nm, rate: 3.2 kn, set: 215}
          - {across: 15 nm, rate: 0.3 kn}
    # - uniform: {set: 215, rate: 1.2 kn}

weather:
  gustFactor: 1.3                     # where no gust is given
  sources:
    - file: wind.grib2
    - letter: letter.txt
      # zone: UTC-10                  # where the letter names none
      # issued: 2027-04-06 1910       # where the letter has no issue time
      # strikeOut: [7, 9]             # lines that were not understood and may be left out
    - periods:
        - {from: 2027-04-08 0600, until: 2027-04-08 1200, wind: NE 12-16 G20, sea: 2-3 ft @ 9 s}

limits:                               # two numbers each; what is left out is not judged against
  wind: {happy: 14 kn, never: 22 kn}
  gust: {happy: 18 kn, never: 29 kn}
  windAgainstCurrent: {happy: 0 kn2, never: 40 kn2}    # knots of wind against the set × knots of current
  seaHeight: {happy: 1.2 m, never: 2.1 m}
  seaPeriod: {happy: 7 s, never: 4 s}
  lightAtArrival: {happy: 5 deg, never: -6 deg}        # height of the sun
  # each may carry tolerated: 20 min

leave:
  from: 2027-04-07 0700               # optional; else over the forecast's cover
  until: 2027-04-12 1200
`;
