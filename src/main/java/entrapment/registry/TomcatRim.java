package entrapment.registry;

import org.springframework.boot.tomcat.servlet.TomcatServletWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.stereotype.Component;

/** What the web container does before the service sees a request, where application.properties has no setting for it. */
@Component
class TomcatRim implements WebServerFactoryCustomizer<TomcatServletWebServerFactory> {

    private static final String MOST_HEADERS = "50";

    @Override
    public void customize(TomcatServletWebServerFactory factory) {
        factory.addConnectorCustomizers(connector -> {
            connector.setProperty("maxHeaderCount", MOST_HEADERS);
            // A caller who waits with a large body is told to send it when it is wanted, not before the key is looked
            // at.
            connector.setProperty("continueResponseTiming", "onRead");
        });
    }
}
