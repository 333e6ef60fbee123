package entrapment.registry.activity;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/** A use count as its row; read by SQL only. */
@Embeddable
@SuppressWarnings("UnusedVariable")
class UseCountColumns {

    /** As of its return, so that row security needs no join. */
    private String centre = "";

    private String deviceClass = "";

    private @Nullable BigDecimal deviceSizeMm;

    private String vessel = "";

    private String calcification = "";

    private String tortuosity = "";

    private String totalOcclusion = "";

    private String stentLayers = "";

    private String guideFrench = "";

    private String operatorStage = "";

    @Column(name = "uses")
    private long uses;

    UseCountColumns(String centre, UseCount count) {
        this.centre = centre;
        deviceClass = count.deviceClass().code();
        deviceSizeMm = count.deviceSizeMm();
        vessel = count.vessel().code();
        calcification = count.calcification().code();
        tortuosity = count.tortuosity().code();
        totalOcclusion = count.totalOcclusion().code();
        stentLayers = count.stentLayers().code();
        guideFrench = count.guideFrench().code();
        operatorStage = count.operatorStage().code();
        uses = count.uses();
    }

    /** For the persistence provider. */
    protected UseCountColumns() {}
}
