import type { EChartsCoreOption } from 'echarts/core';

/** What the chart library is told. */
export type ChartOption = EChartsCoreOption;
