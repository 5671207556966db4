// @ts-check
/**
 * A frame of nautical miles across an invented strait and along it, laid flat on degrees of latitude and longitude. Latitudes north and
 * longitudes east are positive, degrees; bearings are true.
 */

/** @typedef {{ latitudeDeg: number, longitudeDeg: number }} Position */

const RAD = Math.PI / 180;

/**
 * The frame of one strait. `origin`: nought both ways; `middle`: where miles of longitude are counted, the same over the whole strait, which is
 * good to 2 % at its edges and exact for an invented sea; `alongDeg`: a right angle to the right of `acrossDeg`.
 * @param {{ origin: Position, middle: Position, acrossDeg: number, alongDeg: number }} laid
 */
export function straitFrame({ origin, middle, acrossDeg, alongDeg }) {
  const nmPerDegreeEast = 60 * Math.cos(middle.latitudeDeg * RAD);
  return {
    /**
     * Miles across and along, from the origin.
     * @param {Position} position
     */
    milesOf({ latitudeDeg, longitudeDeg }) {
      const eastNm = (longitudeDeg - origin.longitudeDeg) * nmPerDegreeEast;
      const northNm = (latitudeDeg - origin.latitudeDeg) * 60;
      return { acrossNm: toward(eastNm, northNm, acrossDeg), alongNm: toward(eastNm, northNm, alongDeg) };
    },
    /**
     * The position of a place of the frame.
     * @param {number} acrossNm
     * @param {number} alongNm
     * @returns {Position}
     */
    positionAt(acrossNm, alongNm) {
      const eastNm = acrossNm * Math.sin(acrossDeg * RAD) + alongNm * Math.sin(alongDeg * RAD);
      const northNm = acrossNm * Math.cos(acrossDeg * RAD) + alongNm * Math.cos(alongDeg * RAD);
      return { latitudeDeg: origin.latitudeDeg + northNm / 60, longitudeDeg: origin.longitudeDeg + eastNm / nmPerDegreeEast };
    },
    /**
     * Miles from the middle of the strait toward a bearing.
     * @param {Position} position
     * @param {number} bearingDeg
     */
    milesToward({ latitudeDeg, longitudeDeg }, bearingDeg) {
      return toward((longitudeDeg - middle.longitudeDeg) * nmPerDegreeEast, (latitudeDeg - middle.latitudeDeg) * 60, bearingDeg);
    },
  };
}

/**
 * The part of a displacement that lies along a bearing.
 * @param {number} eastNm
 * @param {number} northNm
 * @param {number} bearingDeg
 */
function toward(eastNm, northNm, bearingDeg) {
  return eastNm * Math.sin(bearingDeg * RAD) + northNm * Math.cos(bearingDeg * RAD);
}
